"""The installer's pack, page by page."""
