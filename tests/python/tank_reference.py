"""Follows a tank with an independent solver, for comparison.

Usage: tank_reference.py CASE.json RESULT.json

CASE.json holds a tank, its schedule and its parameters as the Rust types are
serialised, with the length of the run: {"tank", "schedule", "parameters", "days"}.
RESULT.json gets every stock right before every switch and at the end.

The equations are those of tank_equations.py; between two switches they are
integrated by SciPy's DOP853 at a relative tolerance of 1e-11. With "plain" in
the case, the same equations are also given to one adaptive call over the whole
run, lamps switching inside, as one would do at first.
"""

import json
import sys
from math import floor
from pathlib import Path
from types import SimpleNamespace

import numpy as np
from scipy.integrate import solve_ivp
from seawater import Seawater
from tank_equations import CARBON_G, PHOSPHORUS_G, STOCKS, Equations, schmidt

# Far below what any stock of a tank holds, in mol; only what is zero needs it.
ABSOLUTE_TOLERANCE = 1e-14
# Decimal hours of one moment differ in their last bits, d.
SIMULTANEOUS = 1e-9
NITROGEN_G = 14.007

# Water, protein, phosphorus and carbon; all but water of dry mass.
FEEDS = {
    "pellet": (0.08, 0.48, 0.013, 0.45),
    "frozen": (0.86, 0.60, 0.012, 0.45),
    "dried_macroalgae": (0.06, 0.37, 0.006, 0.38),
}

DISSOLVED = STOCKS[: STOCKS.index("DetritusC")] + ["DosedC", "BacteriaC"]


def is_lit(photoperiod, day):
    """Whether a lamp burns, by the clock."""
    return (24 * day - photoperiod.start_hour) % 24 < photoperiod.hours


def occurrences(schedule, end):
    """Everything that happens, by day; at one moment in the order of the list."""
    found = []

    def add(day, action, *details):
        if 0 <= day < end:
            found.append((day, action, details))

    for light in (schedule.display_light, schedule.screen_light):
        if 0 < light.hours < 24:
            for day in range(-1, int(end) + 1):
                add(day + light.start_hour / 24, "switch")
                add(day + (light.start_hour + light.hours) / 24, "switch")
    for day in range(int(end) + 1):
        for feeding in schedule.feedings:
            add(day + feeding.hour / 24, "feed", feeding)
    for plan, action in ((schedule.harvest, "harvest"), (schedule.water_change, "change_water")):
        if plan:
            for n in range(int(end / plan.every_days) + 1):
                add(plan.first_day + n * plan.every_days, action, plan)
    every = schedule.salinity_check_every_days
    if every:
        for n in range(1, int(end / every) + 1):
            add(n * every, "check_salinity")
    every = schedule.dosing.adjusted_every_days
    if every:
        for n in range(1, int(end / every) + 1):
            add(n * every, "adjust_doses", n * every)
    for dated in schedule.events:
        name, details = dated.event, SimpleNamespace()
        if not isinstance(name, str):
            [(name, details)] = vars(name).items()
        add(dated.day, name, details)
    return sorted(found, key=lambda occurrence: occurrence[0])


class Tank:
    """A tank and what can be switched about it."""

    def __init__(self, case):
        self.tank, self.schedule, self.p = tank, schedule, p = (
            case.tank, case.schedule, case.parameters
        )
        self.feeding, self.harvesting, self.feeding_factor = True, True, 1.0
        self.keeper_there, self.tops_off = True, True
        self.dosing = SimpleNamespace(**vars(schedule.dosing))
        self.lamp_works, self.pump_runs, self.flow_share = True, True, 1.0
        self.room_ppm = tank.air.co2_ppm
        self.medium_grams = tank.iron_oxide_grams
        self.lamp_hours = tank.screen.lamp_hours
        self.roughness = 1.0
        if schedule.harvest:
            scrapings = floor(tank.screen.age_days / schedule.harvest.every_days)
            self.roughness = (1 - p.screen.roughness_lost_per_scraping) ** scrapings

        self.water = water = self.seawater(tank.practical_salinity)
        self.full_kg = kg = tank.net_volume_l * water.density * 1e-3
        self.clearances = self.gas_clearances(water.density * 1e-3)
        screen = tank.screen
        self.area = screen.width_cm * screen.height_cm * 1e-4 * screen.lit_faces

        w = tank.water
        carbon = (
            1e6 * water.carbon_under_air(
                w.alkalinity_umol_per_kg * 1e-6, self.room_ppm,
                w.ammonia_umol_per_kg * 1e-6, w.phosphate_umol_per_kg * 1e-6,
            )
            if w.inorganic_carbon_umol_per_kg is None
            else w.inorganic_carbon_umol_per_kg
        )
        # Redfield's ratio, 45 % carbon.
        detritus = w.detritus_dry_grams * 0.45 / CARBON_G
        self.y = y = dict.fromkeys(STOCKS, 0.0)
        y |= {
            "Alkalinity": w.alkalinity_umol_per_kg * 1e-6 * kg,
            "InorganicCarbon": carbon * 1e-6 * kg,
            "Oxygen": w.oxygen_saturation * water.oxygen * kg,
            "Ammonium": w.ammonia_umol_per_kg * 1e-6 * kg,
            "Nitrate": w.nitrate_umol_per_kg * 1e-6 * kg,
            "Phosphate": w.phosphate_umol_per_kg * 1e-6 * kg,
            "Calcium": w.calcium_umol_per_kg * 1e-6 * kg,
            "Magnesium": w.magnesium_umol_per_kg * 1e-6 * kg,
            "Strontium": w.strontium_umol_per_kg * 1e-6 * kg,
            "DetritusC": detritus,
            "DetritusN": detritus * 16 / 106,
            "DetritusP": detritus / 106,
            "Water": kg,
            "Salt": tank.practical_salinity * kg,
        }
        if screen.turf_g_dry_per_m2 > 0:
            self.settle(screen.turf_g_dry_per_m2, 1.0)
        else:
            self.settle(p.screen.settled_g_dry_per_m2, 0.1)
        y["Cover"] = min(y["Cover"], self.roughness)
        self.meant = self.contents()
        self.tested = (0.0, self.meant)

    def seawater(self, salinity):
        return Seawater(self.tank.temperature_celsius, salinity, self.tank.air.pressure_atm)

    def gas_clearances(self, kg_per_l):
        """Water brought to equilibrium with air by each path, kg/d: of CO2, of O2.

        Transfer velocities are those of O2 at 20 C and go with the root of the
        Schmidt number.
        """
        tank, g = self.tank, self.p.gas_transfer
        faster = [
            (schmidt("o2", 20) / schmidt(gas, tank.temperature_celsius)) ** 0.5
            for gas in ("co2", "o2")
        ]
        faces = 2 * tank.screen.width_cm * tank.screen.height_cm * 1e-4
        foam = tank.foam_fractionator.water_l_per_h if tank.foam_fractionator else 0.0

        def wetted(cm_per_h, m2):
            return [cm_per_h * 0.24 * m2 * 1000 * kg_per_l * x for x in faster]

        def passed(l_per_h, share):
            return [l_per_h * 24 * kg_per_l * (1 - (1 - share) ** x) for x in faster]

        return {
            "surface": wetted(g.surface_cm_per_h, tank.surface_area_m2),
            "overflow": passed(tank.overflow_l_per_h, g.overflow_equilibrated_share),
            "film": wetted(g.film_cm_per_h, faces),
            "foam": passed(foam, g.foam_equilibrated_share),
        }

    def settle(self, g_dry_per_m2, cover):
        """Turf of middling nutrient content on a share of the screen."""
        t = self.p.turf
        carbon = g_dry_per_m2 * self.area * cover * t.carbon_per_dry_mass / CARBON_G
        n = (t.least_nitrogen_per_carbon + t.most_nitrogen_per_carbon) / 2
        p = (t.least_phosphorus_per_carbon + t.most_phosphorus_per_carbon) / 2
        self.y |= {
            "TurfC": carbon, "TurfN": n * carbon, "TurfP": p * carbon,
            "Cover": cover, "Reserve": 1.0,
        }

    def equations(self, salinity, display_lit, screen_lit):
        light = 0.7 ** (self.lamp_hours / self.p.lamp.hours_to_70_percent) if screen_lit else 0.0
        switches = SimpleNamespace(
            display_lit=display_lit,
            screen_light=light,
            pump_runs=self.pump_runs,
            flow_share=self.flow_share,
            room_ppm=self.room_ppm,
            medium_grams=self.medium_grams,
            roughness=self.roughness,
            tops_off=self.tops_off,
        )
        return Equations(
            self.tank, self.dosing, self.p, self.full_kg, self.clearances,
            salinity, switches,
        )

    def advance(self, start, end):
        """Integrates over a stretch without a switch."""
        middle = (start + end) / 2
        screen_lit = self.lamp_works and is_lit(self.schedule.screen_light, middle)
        equations = self.equations(
            self.y["Salt"] / self.y["Water"],
            is_lit(self.schedule.display_light, middle),
            screen_lit,
        )
        solution = solve_ivp(
            equations, (start, end), list(self.y.values()),
            method="DOP853", rtol=1e-11, atol=ABSOLUTE_TOLERANCE,
        )
        if not solution.success:
            raise RuntimeError(f"day {start}: {solution.message}")
        self.y = dict(zip(STOCKS, solution.y[:, -1].tolist()))
        self.water = equations.water
        if screen_lit:
            self.lamp_hours += 24 * (end - start)
        return solution.nfev

    # What happens at one moment.

    def switch(self):
        """A lamp on or off: `advance` reads the clock."""

    def feed(self, feeding):
        if not self.feeding:
            return
        if isinstance(feeding.kind, str):
            water, protein, phosphorus, carbon = FEEDS[feeding.kind]
        else:
            declared = feeding.kind.custom
            water, protein, phosphorus, carbon = (
                declared.water_fraction, declared.protein_fraction_of_dry,
                declared.phosphorus_fraction_of_dry, declared.carbon_fraction_of_dry,
            )
        dry = feeding.grams * self.feeding_factor * (1 - water)
        self.y["GutC"] += dry * carbon / CARBON_G
        self.y["GutN"] += dry * protein / 6.25 / NITROGEN_G
        self.y["GutP"] += dry * phosphorus / PHOSPHORUS_G

    def harvest(self, plan):
        planned = hasattr(plan, "every_days")
        if not planned or self.harvesting and self.keeper_there:
            for element in "CNP":
                taken = self.y["Turf" + element] * (1 - plan.kept_share)
                self.y["Turf" + element] -= taken
                self.y["Gut" + element] += taken * plan.fed_back_share
            self.roughness *= 1 - self.p.screen.roughness_lost_per_scraping
            self.y["Cover"] = min(self.y["Cover"], self.roughness)

    def drain(self, share):
        """Drains a share and gives the mass to fill in, with its oxygen."""
        for stock in [*DISSOLVED, "Salt", "Water"]:
            self.y[stock] *= 1 - share
        added = self.full_kg - self.y["Water"]
        self.y["Water"] = self.full_kg
        self.y["Oxygen"] += self.water.oxygen * added
        return added

    def change_water(self, plan):
        if not self.keeper_there:
            return
        added, new = self.drain(plan.share), plan.water
        alkalinity = new.alkalinity_umol_per_kg * 1e-6
        carbon = self.seawater(new.practical_salinity).carbon_under_air(
            alkalinity, self.room_ppm, 0.0, new.phosphate_umol_per_kg * 1e-6
        )
        self.y["Salt"] += new.practical_salinity * added
        self.y["InorganicCarbon"] += carbon * added
        for stock in ("Alkalinity", "Calcium", "Magnesium", "Strontium", "Nitrate", "Phosphate"):
            content = getattr(new, stock.lower() + "_umol_per_kg")
            self.y[stock] += content * 1e-6 * added

    def check_salinity(self):
        salinity, meant = self.y["Salt"] / self.y["Water"], self.tank.practical_salinity
        if salinity - meant > 0.3 and self.keeper_there:
            self.drain(1 - meant / salinity)

    def contents(self):
        return {s: self.y[s] / self.y["Water"] for s in ("Alkalinity", "Calcium", "Magnesium")}

    def adjust_doses(self, day):
        """Doses what was used up since the last test, and what is missing."""
        if not self.keeper_there:
            return
        before, self.tested = self.tested, (day, self.contents())
        days = day - before[0]
        for stock, now in self.tested[1].items():
            name = {"Alkalinity": "bicarbonate"}.get(stock, stock.lower()) + "_mol_per_day"
            gained = (now - before[1][stock]) * self.full_kg / days
            missing = (self.meant[stock] - now) * self.full_kg / days
            setattr(self.dosing, name, max(getattr(self.dosing, name) - gained + missing, 0.0))

    def keeper_leaves(self, _):
        self.keeper_there = False

    def keeper_returns(self, _):
        self.keeper_there = True

    def top_off_stops(self, _):
        self.tops_off = False

    def top_off_restored(self, _):
        self.tops_off = True

    def screen_lamp_fails(self, _):
        self.lamp_works = False

    def screen_lamp_repaired(self, _):
        self.lamp_works = True

    def screen_flow_drops(self, event):
        self.flow_share = event.share

    def screen_flow_restored(self, _):
        self.flow_share = 1.0

    def pump_stops(self, _):
        self.pump_runs = False

    def pump_restored(self, _):
        self.pump_runs = True

    def feeding_stops(self, _):
        self.feeding = False

    def feeding_resumes(self, _):
        self.feeding = True

    def feeding_scaled(self, event):
        self.feeding_factor = event.factor

    def harvests_stop(self, _):
        self.harvesting = False

    def harvests_resume(self, _):
        self.harvesting = True

    def new_screen(self, _):
        self.roughness = 1.0
        self.settle(self.p.screen.settled_g_dry_per_m2, 0.1)

    def new_screen_lamp(self, _):
        self.lamp_hours = 0.0

    def new_iron_oxide(self, event):
        self.medium_grams = event.grams
        self.y["MediumP"] = 0.0

    def room_co2(self, event):
        self.room_ppm = event.ppm


def follow(case):
    """Every stock right before every switch."""
    tank, now, at_switches, evaluations = Tank(case), 0.0, [], 0
    moments = [*occurrences(case.schedule, case.days), (case.days, "switch", ())]
    for day, action, details in moments:
        if day - now > SIMULTANEOUS:
            evaluations += tank.advance(now, day)
            now = day
            at_switches.append([day, *tank.y.values()])
        getattr(tank, action)(*details)
    return at_switches, evaluations


def plain(case):
    """The end of the run by one call, without telling the solver of the switches."""
    tank = Tank(case)
    every = {
        (display, screen): tank.equations(case.tank.practical_salinity, display, screen)
        for display in (False, True)
        for screen in (False, True)
    }

    def equations(day, y):
        lit = is_lit(case.schedule.display_light, day), is_lit(case.schedule.screen_light, day)
        return every[lit](day, y)

    solution = solve_ivp(equations, (0, case.days), list(tank.y.values()))
    return {"success": bool(solution.success), "end": solution.y[:, -1].tolist(),
            "steps": len(solution.t) - 1}


def main():
    source, destination = map(Path, sys.argv[1:])
    case = json.loads(
        source.read_text(encoding="utf-8"), object_hook=lambda fields: SimpleNamespace(**fields)
    )
    at_switches, evaluations = follow(case)
    if not np.all(np.isfinite(at_switches)):
        raise ValueError("a stock is not finite")
    result = {"stocks": STOCKS, "at_switches": at_switches, "evaluations": evaluations}
    if case.plain:
        result["plain"] = plain(case)
    destination.write_text(json.dumps(result), encoding="utf-8")


if __name__ == "__main__":
    main()
