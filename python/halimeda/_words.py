"""What tables and the report call goals, suspects and stalls."""

from __future__ import annotations

#: Goals as a keeper would ask for them.
GOALS = {
    "nitrate": "nitrate in its band",
    "phosphate": "phosphate in its band",
    "ph_swing": "a small daily pH swing",
    "night_oxygen": "enough oxygen at night",
    "alkalinity_drift": "steady alkalinity",
    "ammonia": "no un-ionised ammonia to speak of",
}

#: What a verdict suspects.
SUSPECTS = {
    "lamp_failed": "the screen's lamps failed",
    "flow_dropped": "the flow over the screen dropped",
    "feeding_up": "more food went in than was planned or written down",
    "feeding_down": "less food went in than was planned or written down",
    "harvests_missed": "planned harvests were missed",
}

#: What keeps turf from growing.
STALLS = {
    "no_nitrogen": "too little nitrogen",
    "no_phosphorus": "too little phosphorus",
    "no_light": "too little light",
    "no_flow": "too little flow over the screen",
    "too_cold": "too cold",
    "overgrown": "a mat that shades its own base",
    "bare": "a screen still nearly bare",
}
