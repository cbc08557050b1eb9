"""The pages of words in the formats that people open: Markdown, plain text, HTML and Word's DOCX."""
