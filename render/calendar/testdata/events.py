"""Reads an iCalendar file from standard input with the general-purpose
library icalendar and prints what it found as JSON."""
import json
import sys

import icalendar

calendar = icalendar.Calendar.from_ical(sys.stdin.buffer.read())
events = []
for e in calendar.walk("VEVENT"):
    categories = e["CATEGORIES"]
    events.append({
        "uid": str(e["UID"]),
        "summary": str(e["SUMMARY"]),
        "description": str(e["DESCRIPTION"]),
        "begin": e["DTSTART"].dt.isoformat(),
        "end": e["DTEND"].dt.isoformat(),
        "stamp": e["DTSTAMP"].dt.isoformat(),
        "transparent": str(e["TRANSP"]),
        "categories": [str(c) for c in categories.cats],
        "url": str(e.get("URL", "")),
        "errors": [str(x) for x in e.errors],
    })
print(json.dumps({"name": str(calendar["NAME"]), "version": str(calendar["VERSION"]), "events": events}))
