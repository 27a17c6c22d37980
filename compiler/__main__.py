"""`python -m compiler` is `linstock`."""

from compiler.cli import main

if __name__ == "__main__":
    main()
