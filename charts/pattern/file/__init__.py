"""The pattern file: its tables, keys and values read into records, and what does not agree."""
