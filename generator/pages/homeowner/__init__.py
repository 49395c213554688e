"""The homeowner's pack, page by page, in everyday words."""
