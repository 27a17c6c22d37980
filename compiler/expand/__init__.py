"""From files to statements: reading, declaring, lines of cues; every made thing keeps its place."""
