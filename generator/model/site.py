"""The folder of what was taken in, and how its files are named: the phone, its first and last counter, the start of their SHA-256."""
from generator.model.forms import PHONE_ID

SITE, SIGNATURES = "site", "signatures"
NAME = rf"(?P<phone>{PHONE_ID.pattern})-(?P<first>[0-9]{{6,9}})-(?P<last>[0-9]{{6,9}})-(?P<print>[0-9a-f]{{16}})\.txt"
