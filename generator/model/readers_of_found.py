"""Who may see what was found on site: the company, in its record. No other pack is told of it.

Rows as in the other tables; unit, step and thing are those of the plan, which the installer's pack holds anyway.
"""
FOUND: dict[str, str] = {
    "results.format": "---R",
    "results.reference": "---R",
    "results.revision": "---R",
    "results.fingerprint": "---R",
    "results.phone": "---R",
    "results.entries.*.id": "---R",
    "results.entries.*.device": "I--R",
    "results.entries.*.step": "I--R",
    "results.entries.*.what": "I--R",
    "results.entries.*.value": "---R",
    "results.entries.*.unit": "---R",
    "results.entries.*.result": "---R",
    "results.entries.*.at": "---R",
    "results.entries.*.by": "---R",
    "results.entries.*.note": "---R",
    "results.signatures.*": "---R",
}
