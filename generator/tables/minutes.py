"""Usual minutes for each piece of work, for somebody who has done it before. Common practice, no source.

A sheet's own `minutes` come first for its units. Times are only added up: nothing is held against them.
"""

# What one person gets done between arriving and leaving on one day, breaks taken off.
DAY_MIN = 8 * 60

# Work on the job as a whole, by the step that it belongs to.
OF_STEP = {
    "read-pack": 10, "walk-round": 20, "asbestos": 10, "existing": 30, "ladder": 10, "climb": 2, "on-test": 5,
    "place": 10, "background": 10, "isolate": 15, "services": 10, "cable-entry": 30, "supply": 10, "cells": 10,
    "authority": 5, "clock": 2, "attributes": 20, "times": 5, "part-sets": 5, "users": 10, "sounders": 2, "reporting": 10,
    "tests": 2, "completing": 5, "read-back": 10,
    "tampers": 20, "entry-exit": 10, "part-set": 5, "omit": 3, "mains-fail": 5, "battery-load": 10, "supervision": 10, "heard-again": 5,
    "interference": 5, "path": 10, "confirmation": 10, "partition": 10, "full-set": 10, "log": 5,
    "quiet": 5, "join": 10, "on": 10, "lid": 5, "refit": 20, "night": 10, "train": 15, "off-test": 5, "sign": 15,
}

# Work on one unit. A kind that is not named takes what stands under "other".
CHECK = {"repeater": 8, "sounder": 8, "other": 4}
FIX = {"control-unit": 45, "contact": 15, "movement": 15, "sounder outside": 60, "sounder": 25, "repeater": 40, "keypad": 25, "reader": 25,
       "smoke": 10, "heat": 10,
       "carbon-monoxide": 10, "other": 15}
ENROL = {"other": 3}
TEST = {"control-unit": 5, "movement": 8, "contact": 4, "sounder": 10, "repeater": 10, "hold-up": 10, "medical": 15, "smoke": 8, "heat": 8,
        "carbon-monoxide": 8, "glass-break": 6, "shock": 6, "keypad": 6, "reader": 4, "fob": 2, "tag": 1, "other": 4}
