"""Primary cells: what no single unit's sheet says."""
from generator.terms.source import Known, Source

# No cell is counted on for longer, whatever the sum says: seals, shelf life and contacts end it.
LONGEST_YEARS = 10.0
LONGEST = Source("No cell is counted on beyond ten years", "", Known.PRACTICE, "")
# Why a life from average currents is shown derated, never as a promise.
AVERAGE = Source("Barboni and Valle, Wireless Sensor Network 6, 212 to 220, abstract", "2014", Known.READ, "")

# Units that people's moving about makes send, many times a day. The others send supervision messages alone, until what they wait for
# happens. Common practice, no source.
SEND_BY_TRAFFIC = ("contact", "movement", "keypad", "reader")
# Units that are carried: nobody knows how often they are pressed.
CARRIED = ("fob", "tag")
