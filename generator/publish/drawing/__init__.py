"""Pictures made at build time: drawings of the house, charts."""
