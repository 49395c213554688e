"""The languages in which the homeowner's pages come along, by their short form (ISO 639-1, from memory); others are shown in English."""

ENGLISH = "en"
LANGUAGES = {ENGLISH: "English"}
