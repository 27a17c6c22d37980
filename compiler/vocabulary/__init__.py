"""The one declaration of every kind of statement, and what decodes by it."""
