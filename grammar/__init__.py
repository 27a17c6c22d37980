"""The lowest room: text to syntax tree, spans and findings. Uses nothing of the compiler."""
