"""The manual, page by page, read from the program itself."""
