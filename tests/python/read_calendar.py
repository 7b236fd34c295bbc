"""Reads an iCalendar file on standard input with an independent library and writes
its events as JSON: what a calendar program makes of it."""

import json
import sys

import icalendar

calendar = icalendar.Calendar.from_ical(sys.stdin.buffer.read())
events = []
for event in calendar.walk("VEVENT"):
    start, end = event.decoded("DTSTART"), event.decoded("DTEND")
    events.append(
        {
            "uid": str(event["UID"]),
            "start": start.isoformat(),
            "end": end.isoformat(),
            "stamp": event.decoded("DTSTAMP").isoformat(),
            "summary": str(event["SUMMARY"]),
            "description": str(event["DESCRIPTION"]),
            "transparent": str(event["TRANSP"]) == "TRANSPARENT",
            "reminders_minutes": [
                -alarm.decoded("TRIGGER").total_seconds() / 60.0
                for alarm in event.walk("VALARM")
            ],
            "errors": [str(error) for error in event.errors],
        }
    )
json.dump(
    {
        "name": str(calendar["X-WR-CALNAME"]),
        "version": str(calendar["VERSION"]),
        "errors": [str(error) for error in calendar.errors],
        "events": events,
    },
    sys.stdout,
)
