"""The model: frozen values in SI, and the builders that make them of statements."""
