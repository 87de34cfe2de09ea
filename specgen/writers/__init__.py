"""A section written out: DOCX, Markdown, plain text; its registers as CSV and XLSX."""
