"""Standby batteries, cells and cables: how much, how long, how soon filled again."""
