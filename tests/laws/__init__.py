"""Laws that every show keeps, on generated shows."""
