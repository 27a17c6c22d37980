"""`python -m compiler` is `linstock`."""

from compiler.cli import entry

if __name__ == "__main__":
    entry()
