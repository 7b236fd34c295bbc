"""The equations of a reef tank between two switches, written a second time.

From the description of the processes, apart from the Rust code that they check:
here each stock's change is summed up by itself, where the Rust code derives all
of them from one list of flows. The meaning of every parameter is documented
with the Rust types of the same names.

Stocks are in mol (alkalinity in eq, water in kg, salt in kg times practical
salinity, cover and reserve as shares), time in days, contents in mol/kg.
"""

from math import asinh, exp, sqrt

from seawater import Seawater

STOCKS = (
    "Alkalinity InorganicCarbon Oxygen Ammonium Nitrate Phosphate Calcium Magnesium Strontium "
    "DissolvedOrganicC DissolvedOrganicN DissolvedOrganicP DetritusC DetritusN DetritusP "
    "GutC GutN GutP DosedC BacteriaC MediumP Water Salt TurfC TurfN TurfP Cover Reserve"
).split()

UMOL, MMOL = 1e-6, 1e-3
CARBON_G, PHOSPHORUS_G = 12.011, 30.973761998
# O2 per organic carbon, per nitrate reduced to ammonium, per nitrate reduced to N2.
O2_PER_C, O2_PER_NITRATE, O2_PER_DENITRIFIED = 1.1, 2.0, 1.25
FRESH_WATER_KG_PER_L = 0.99705
# Phosphate at which the loading of iron oxide is stated: 0.3 mg P/L at 1.0233 kg/L.
MEDIUM_REFERENCE = 0.3e-3 / PHOSPHORUS_G / 1.0233
# Magnesium and strontium per calcium in seawater: Millero et al. (2008) table 4.
MG_PER_CA, SR_PER_CA = 0.0547421 / 0.0106568, 0.0000940 / 0.0106568


def saturation(content, half):
    """Michaelis-Menten."""
    return content / (half + content) if content > 0 else 0.0


def gradual_excess(value, spread):
    """What is above zero on average over many whose zeros lie within a spread.

    The share of those above rises as 3 x^2 - 2 x^3; this is its integral.
    """
    if abs(value) >= spread:
        return max(value, 0.0)
    x = (value / spread + 1) / 2
    return 2 * spread * (x**3 - x**4 / 2)


def series_uptake(content, transfer, capacity, half):
    """Transfer through a boundary layer, then Michaelis-Menten at the surface.

    The smaller root J of J^2 - (V + S (K + c)) J + V S c = 0.
    """
    c = max(content, 0.0)
    b = capacity + transfer * (half + c)
    product = capacity * transfer * c
    return 2 * product / (b + sqrt(b * b - 4 * product)) if b > 0 else 0.0


def schmidt(gas, t):
    """Wanninkhof (2014) table 1."""
    a, b, c, d, e = {
        "co2": (2116.8, -136.25, 4.7353, -0.092307, 0.0007555),
        "o2": (1920.4, -135.6, 5.2122, -0.10939, 0.00093777),
    }[gas]
    return a + b * t + c * t**2 + d * t**3 + e * t**4


def growth_at(turf, t):
    """Rosso et al. (1993): growth at a temperature, 1 at the optimum."""
    low, best, high = (
        turf.lowest_temperature_celsius,
        turf.optimum_temperature_celsius,
        turf.highest_temperature_celsius,
    )
    if not low < t < high:
        return 0.0
    return (t - high) * (t - low) ** 2 / (
        (best - low) * ((best - low) * (t - best) - (best - high) * (best + low - 2 * t))
    )


class Equations:
    """What the tank does under one set of switches, at the salinity of their moment.

    `switches` holds display_lit, screen_light (share of a new lamp's light, 0 when
    dark), pump_runs, flow_share, room_ppm, medium_grams, roughness and tops_off.
    """

    def __init__(self, tank, dosing, p, full_kg, clearances, salinity, switches):
        self.tank, self.dosing, self.p, self.full_kg = tank, dosing, p, full_kg
        self.switches = switches
        celsius = tank.temperature_celsius
        self.water = water = Seawater(celsius, salinity, tank.air.pressure_atm)

        def warmth(q10):
            return q10 ** ((celsius - 25) / 10)

        self.warmth = {
            name: warmth(getattr(p, name).q10)
            for name in (
                "livestock", "mineralisation", "nitrification", "denitrification",
                "bacteria", "display",
            )
        }

        # Gas exchange over all open paths: kg/d cleared, and that times the content
        # at equilibrium.
        pumped = 1.0 if switches.pump_runs else 0.0
        flow_share = pumped * switches.flow_share
        wetted = flow_share * tank.screen.flow_l_per_h_per_cm
        foam_ppm = tank.foam_fractionator.air_co2_ppm if tank.foam_fractionator else 0.0
        self.co2_cleared = self.co2_gained = self.o2_cleared = 0.0
        for path, opened, ppm in [
            ("surface", 1.0, switches.room_ppm),
            ("overflow", pumped, switches.room_ppm),
            ("film", 1.0 if wetted > 0 else 0.0, switches.room_ppm),
            ("foam", pumped, foam_ppm),
        ]:
            co2, o2 = clearances[path]
            self.co2_cleared += opened * co2
            self.co2_gained += opened * co2 * ppm * water.co2_per_dry_ppm
            self.o2_cleared += opened * o2
        self.foaming = pumped if tank.foam_fractionator else 0.0

        # The turf's surroundings.
        screen = tank.screen
        self.area = screen.width_cm * screen.height_cm * 1e-4 * screen.lit_faces
        turf = p.turf
        self.dry_per_mol = CARBON_G / turf.carbon_per_dry_mass
        self.light = (
            screen.irradiance_umol_per_m2_s * p.lamp.photon_worth * switches.screen_light
            / turf.saturation_irradiance_umol_per_m2_s
        )
        # Film on an incline: U = (8 g q/f)^(1/3), transfer as U^0.8.
        per_width = screen.flow_l_per_h_per_cm * flow_share / 36_000  # m2/s
        velocity = (8 * 9.80665 * per_width / p.screen.film_friction_factor) ** (1 / 3)
        self.transfer = (
            p.screen.transfer_m_per_day_at_3_cm_per_s * (velocity / 0.03) ** 0.8 * water.density
        )
        self.turf_growth = growth_at(turf, celsius)
        self.turf_respiration = (
            turf.max_photosynthesis_per_day
            * turf.respiration_per_max_photosynthesis
            * warmth(turf.respiration_q10)
        )

    def turf(
        self, carbon, nitrogen, phosphorus, cover, reserve, ammonium, nitrate, phosphate, dic, oxygen
    ):
        """Fixation, respiration, uptake of NH4, NO3 and PO4, share let go, and the
        changes of cover and reserve."""
        p = self.p.turf
        carbon = max(carbon, 0.0)
        breathed = self.turf_respiration * carbon * saturation(
            oxygen, UMOL * p.oxygen_half_saturation_umol_per_kg
        )
        if self.transfer <= 0:
            return (
                0.0, breathed, 0.0, 0.0, 0.0,
                p.desiccation_per_day, 0.0, -p.desiccation_per_day * reserve,
            )
        cover = min(max(cover, 1e-4), 1.0)
        covered = self.area * cover
        mat = carbon / covered

        # Smith's curve through the mat: the integral of u/sqrt(1 + u^2) over the
        # biomass, u = u0 exp(-k b), is (asinh u0 - asinh u)/k.
        shading = p.attenuation_m2_per_g_dry * self.dry_per_mol
        base = self.light * exp(-shading * mat)
        lit = (asinh(self.light) - asinh(base)) / shading * covered

        def quota(stored, least, most):
            q = min(max(stored / carbon, least), most) if carbon > 0 else most
            return (1 - least / q) / (1 - least / most), (most - q) / (most - least)

        n_growth, n_room = quota(
            nitrogen, p.least_nitrogen_per_carbon, p.most_nitrogen_per_carbon
        )
        p_growth, p_room = quota(
            phosphorus, p.least_phosphorus_per_carbon, p.most_phosphorus_per_carbon
        )
        photosynthesis = (
            p.max_photosynthesis_per_day * self.turf_growth * min(n_growth, p_growth)
            * saturation(dic, UMOL * p.carbon_half_saturation_umol_per_kg)
        )

        def taken_up(content, most, half, room):
            capacity = self.turf_growth * mat * most * room
            return covered * series_uptake(content, self.transfer, capacity, UMOL * half)

        ammonium = max(ammonium, 0.0)
        inhibited = 1 / (1 + ammonium / (UMOL * p.ammonium_inhibition_umol_per_kg))
        uptake = (
            taken_up(ammonium, p.max_ammonium_uptake_per_day,
                     p.ammonium_half_saturation_umol_per_kg, n_room),
            taken_up(nitrate, p.max_nitrate_uptake_per_day * inhibited,
                     p.nitrate_half_saturation_umol_per_kg, n_room),
            taken_up(phosphate, p.max_phosphate_uptake_per_day,
                     p.phosphate_half_saturation_umol_per_kg, p_room),
        )

        # The holdfast layer earns by the light at the base and spends by respiring;
        # it stores no more than five times its respiration.
        held = min(max(reserve, 0.0), 1.0)
        earned = photosynthesis * base / sqrt(1 + base * base) / self.turf_respiration
        balance = earned - gradual_excess(earned - 5.0, 1.0) - 1.0
        stored = gradual_excess(balance, 0.1)
        drawn = gradual_excess(-balance, 0.1)
        return (
            photosynthesis * lit,
            breathed,
            *uptake,
            p.fragmentation_per_day + p.release_per_day * (1 - held) ** 8,
            (p.spreading_per_day * self.turf_growth * cover + self.p.screen.settlement_per_day)
            * max(self.switches.roughness - cover, 0.0),
            (stored * (1 - held) - drawn * held / (held + 0.02)) / p.reserve_days,
        )

    def __call__(self, _time, y):
        """The change of every stock per day."""
        (
            alkalinity, dic, oxygen, ammonium, nitrate, phosphate, calcium, magnesium, strontium,
            dissolved_c, dissolved_n, dissolved_p, detritus_c, detritus_n, detritus_p,
            gut_c, gut_n, gut_p, dosed, bacteria, bound, kg, _,
            turf_c, turf_n, turf_p, cover, reserve,
        ) = y.tolist()
        tank, p, dose, warmth = self.tank, self.p, self.dosing, self.warmth
        c_dic, c_o2, c_nh4, c_no3, c_po4 = (
            x / kg for x in (dic, oxygen, ammonium, nitrate, phosphate)
        )
        co2, carbonate = self.water.co2_and_carbonate(alkalinity / kg, c_dic, c_nh4, c_po4)
        lit = 1.0 if self.switches.display_lit else 0.0

        co2_from_air = self.co2_gained - self.co2_cleared * co2
        o2_from_air = self.o2_cleared * (self.water.oxygen - c_o2)

        # Fed animals.
        f = p.livestock
        breathing = saturation(c_o2, UMOL * f.half_saturation_oxygen_umol_per_kg)
        out_c, out_n, out_p = (
            f.gut_passage_per_day * breathing * x for x in (gut_c, gut_n, gut_p)
        )
        waste_c = out_c * (1 - f.carbon_retention)
        waste_n = out_n * (1 - f.nitrogen_retention)
        waste_p = out_p * (1 - f.phosphorus_retention)
        faeces_c = waste_c * f.faecal_share_of_waste_carbon
        faeces_n = waste_n * (1 - f.dissolved_share_of_waste_nitrogen)
        faeces_p = waste_p * f.faecal_share_of_waste_phosphorus
        breathed = waste_c - faeces_c
        needed = (
            tank.livestock_grams * MMOL * f.fasting_respiration_mmol_c_per_g_per_day
            * warmth["livestock"] * breathing
        )
        from_body = gradual_excess(needed - max(breathed, 0.0), 0.3 * needed)
        excreted_n = waste_n - faeces_n + from_body / f.fasting_carbon_to_nitrogen
        excreted_p = waste_p - faeces_p

        # Decay.
        m = p.mineralisation
        decay = warmth["mineralisation"] * saturation(
            c_o2, UMOL * m.half_saturation_oxygen_umol_per_kg
        )
        of_detritus, of_dissolved = m.particulate_per_day * decay, m.dissolved_per_day * decay
        decayed_c = of_detritus * detritus_c + of_dissolved * dissolved_c
        decayed_n = of_detritus * detritus_n + of_dissolved * dissolved_n
        decayed_p = of_detritus * detritus_p + of_dissolved * dissolved_p

        # Rock.
        n = p.nitrification
        nitrified = (
            MMOL * n.capacity_mmol_per_m2_per_day * tank.rock_area_m2 * warmth["nitrification"]
            * saturation(c_nh4, UMOL * n.half_saturation_ammonia_umol_per_kg)
            * saturation(c_o2, UMOL * n.half_saturation_oxygen_umol_per_kg)
        )
        d = p.denitrification
        denitrified = (
            MMOL * d.capacity_mmol_per_m2_per_day * tank.rock_area_m2 * warmth["denitrification"]
            * saturation(c_no3, UMOL * d.half_saturation_nitrate_umol_per_kg)
            * saturation(
                detritus_c,
                MMOL * d.half_saturation_organic_carbon_mmol_per_m2 * tank.rock_area_m2,
            )
        )
        burnt_c = O2_PER_DENITRIFIED / O2_PER_C * denitrified

        # Iron oxide.
        grams = self.switches.medium_grams
        if grams > 0:
            loading = bound / grams * PHOSPHORUS_G * 1e3 / p.iron_oxide.reference_loading_mg_p_per_g
            to_medium = p.iron_oxide.clearance_kg_per_g_per_day * grams * (
                c_po4 - MEDIUM_REFERENCE * loading**3
            )
        else:
            to_medium = 0.0

        # Bacteria on dosed carbon.
        b = p.bacteria
        by_ammonia = saturation(c_nh4, UMOL * b.half_saturation_ammonia_umol_per_kg)
        by_nitrate = (1 - by_ammonia) * saturation(
            c_no3, UMOL * b.half_saturation_nitrate_umol_per_kg
        )
        potential = (
            b.maximum_growth_per_day * warmth["bacteria"]
            * (max(bacteria, 0.0) + UMOL * b.background_carbon_umol_per_kg * kg)
            * saturation(dosed / kg, UMOL * b.half_saturation_dosed_carbon_umol_per_kg)
            * saturation(c_po4, UMOL * b.half_saturation_phosphate_umol_per_kg)
            * saturation(c_o2, UMOL * b.half_saturation_oxygen_umol_per_kg)
        )
        grown = potential * (by_ammonia + by_nitrate)
        eaten = grown / b.yield_mol_per_mol
        bacterial_o2 = eaten * b.oxygen_per_dosed_carbon - grown * O2_PER_C
        bacterial_nh4 = potential * by_ammonia / b.carbon_to_nitrogen
        bacterial_no3 = potential * by_nitrate / b.carbon_to_nitrogen
        bacterial_po4 = grown / b.carbon_to_phosphorus
        died = b.death_per_day * warmth["bacteria"] * bacteria

        # Turf.
        fixed, turf_breathed, turf_nh4, turf_no3, turf_po4, let_go, covering, reserving = self.turf(
            turf_c, turf_n, turf_p, cover, reserve, c_nh4, c_no3, c_po4, c_dic, c_o2
        )
        exuded = p.turf.exuded_share * fixed

        # Calcification, mol/d of carbonate.
        supersaturation = (carbonate * calcium / kg / self.water.aragonite - 1) / 3

        def laid_down(area, q):
            if supersaturation <= 0:
                return 0.0
            day = 1.0 if lit else 1 / q.light_to_dark
            return MMOL * q.light_rate_mmol_per_m2_per_day * area * day * supersaturation**q.order

        def cations(carbonate, q):
            """Magnesium and strontium among them: each per calcium goes with the water's."""
            in_calcium = 1 - q.magnesium_fraction - q.strontium_fraction
            mg = q.magnesium_fraction * max(magnesium, 0.0) / calcium / MG_PER_CA
            sr = q.strontium_fraction * max(strontium, 0.0) / calcium / SR_PER_CA
            whole = in_calcium + mg + sr
            return carbonate * mg / whole, carbonate * sr / whole

        coral = laid_down(tank.coral_area_m2, p.coral)
        crust = laid_down(tank.coralline_area_m2, p.coralline)
        coral_mg, coral_sr = cations(coral, p.coral)
        crust_mg, crust_sr = cations(crust, p.coralline)
        minerals = coral + crust

        # Display.
        v = p.display
        display_fixed = (
            MMOL * v.saturated_photosynthesis_mmol_c_per_m2_per_day * tank.living_area_m2 * lit
            * saturation(c_dic, UMOL * v.half_saturation_inorganic_carbon_umol_per_kg)
        )
        display_breathed = (
            MMOL * v.respiration_mmol_c_per_m2_per_day * tank.living_area_m2 * warmth["display"]
            * saturation(c_o2, UMOL * v.half_saturation_oxygen_umol_per_kg)
        )

        # Water.
        evaporated = tank.evaporation_l_per_day * FRESH_WATER_KG_PER_L
        topped_off = evaporated + p.top_off.response_per_day * (self.full_kg - kg)
        topped_off = max(min(topped_off, p.top_off.capacity_kg_per_day), 0.0) * self.switches.tops_off
        lime = dose.limewater_mol_per_l * topped_off / FRESH_WATER_KG_PER_L
        reactor = dose.reactor_mol_per_day

        foam = self.foaming
        foam_dissolved = p.foam.dissolved_per_day * foam
        foam_detritus = p.foam.particulate_per_day * foam

        # Respiration of food and of what grew on it.
        respired = breathed + from_body + decayed_c + turf_breathed + display_breathed
        photosynthesised = fixed + display_fixed
        nh4_uptake = turf_nh4 + bacterial_nh4
        no3_uptake = turf_no3 + bacterial_no3
        po4_uptake = turf_po4 + bacterial_po4 + to_medium
        n_released = excreted_n + decayed_n
        p_released = excreted_p + decayed_p
        salts_g = (
            84.01 * dose.bicarbonate_mol_per_day + 105.99 * dose.carbonate_mol_per_day
            + 40.00 * dose.hydroxide_mol_per_day + 74.09 * lime
            + 110.98 * dose.calcium_mol_per_day + 95.21 * dose.magnesium_mol_per_day
            + 84.99 * dose.nitrate_mol_per_day + 119.98 * dose.phosphate_mol_per_day
            + 100.09 * (reactor - minerals)
        )

        return [
            # Alkalinity: Wolf-Gladrow et al. (2007).
            n_released - p_released + no3_uptake - nh4_uptake + po4_uptake
            - 2 * nitrified + denitrified - 2 * minerals
            + dose.bicarbonate_mol_per_day + 2 * dose.carbonate_mol_per_day
            + dose.hydroxide_mol_per_day + 2 * lime + 2 * reactor,
            # Inorganic carbon.
            co2_from_air + respired + (eaten - grown) + burnt_c - photosynthesised - minerals
            + dose.bicarbonate_mol_per_day + dose.carbonate_mol_per_day
            + reactor * (2 + dose.reactor_excess_co2_per_mol),
            # Oxygen.
            o2_from_air + O2_PER_C * (photosynthesised - respired) - bacterial_o2
            + O2_PER_NITRATE * (no3_uptake - nitrified),
            n_released - nh4_uptake - nitrified,
            nitrified - denitrified - no3_uptake + dose.nitrate_mol_per_day,
            p_released - po4_uptake + dose.phosphate_mol_per_day,
            # Calcium, magnesium and strontium share the place of the cation.
            coral_mg + coral_sr + crust_mg + crust_sr - minerals
            + lime + dose.calcium_mol_per_day + reactor,
            dose.magnesium_mol_per_day - coral_mg - crust_mg,
            -coral_sr - crust_sr,
            # Dissolved organic matter.
            exuded + died - (of_dissolved + foam_dissolved) * dissolved_c,
            died / b.carbon_to_nitrogen - (of_dissolved + foam_dissolved) * dissolved_n,
            died / b.carbon_to_phosphorus - (of_dissolved + foam_dissolved) * dissolved_p,
            # Detritus.
            faeces_c + let_go * turf_c - burnt_c - (of_detritus + foam_detritus) * detritus_c,
            faeces_n + let_go * turf_n - (of_detritus + foam_detritus) * detritus_n,
            faeces_p + let_go * turf_p - (of_detritus + foam_detritus) * detritus_p,
            # Gut.
            -out_c,
            -out_n,
            -out_p,
            dose.organic_carbon_mol_per_day - eaten,
            grown - died - p.foam.bacteria_per_day * foam * bacteria,
            to_medium,
            topped_off - evaporated,
            35 / 35.16504 * salts_g,
            # Turf.
            fixed - exuded - turf_breathed - let_go * turf_c,
            turf_nh4 + turf_no3 - let_go * turf_n,
            turf_po4 - let_go * turf_p,
            covering,
            reserving,
        ]
