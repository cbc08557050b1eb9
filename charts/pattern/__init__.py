"""What the file says: records, the TOML reader, the notation reader and the terms (US and UK)."""
