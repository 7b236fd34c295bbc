"""Seawater as the reference solution of a tank needs it.

Written from the publications, apart from the Rust library, whose choices it
follows: Lueker et al. (2000), Dickson (1990) twice, Perez & Fraga (1987) on the
total scale as in Dickson, Sabine & Christian (2007), Lee et al. (2010). Contents
are in mol/kg, H+ on the total scale.
"""

from math import exp, log, log10, sqrt

from scipy.optimize import brentq

GAS_CONSTANT = 83.14462618  # cm3 bar / (mol K), CODATA 2018


class Seawater:
    """Everything that follows from temperature, practical salinity and air pressure."""

    def __init__(self, celsius, salinity, pressure_atm):
        t = celsius + 273.15
        s = salinity
        ln_t = log(t)
        root_s = sqrt(s)

        # Reference composition: Millero et al. (2008) table 4; boron: Lee et al. (2010).
        sulfate, fluoride = (m * 0.96483496 * s / 35 for m in (0.0292643, 0.0000708))
        boron = 0.0004326 * s / 35

        # Dickson (1990) J. Chem. Thermodyn. 22; ionic strength of Dickson et al. (2007).
        ionic = 19.924 * s / (1000 - 1.005 * s)
        water = 1 - 0.001005 * s
        bisulfate = water * exp(
            -4276.1 / t + 141.328 - 23.093 * ln_t
            + (-13856 / t + 324.57 - 47.986 * ln_t) * sqrt(ionic)
            + (35474 / t - 771.54 + 114.723 * ln_t) * ionic
            - 2698 / t * ionic**1.5
            + 1776 / t * ionic**2
        )
        free_to_total = 1 + sulfate / bisulfate
        # Perez & Fraga (1987), total scale.
        hydrogen_fluoride = exp(874 / t - 9.68 + 0.111 * root_s) / free_to_total
        free_to_seawater = free_to_total + fluoride / hydrogen_fluoride
        seawater_to_total = free_to_total / free_to_seawater

        # Lueker, Dickson & Keeling (2000), total scale.
        k1 = 10 ** -(3633.86 / t - 61.2172 + 9.6777 * ln_t - 0.011555 * s + 0.0001152 * s**2)
        k2 = 10 ** -(471.78 / t + 25.929 - 3.16967 * ln_t - 0.01781 * s + 0.0001122 * s**2)
        # Dickson (1990) Deep-Sea Res. 37, total scale.
        borate = exp(
            (-8966.9 - 2890.53 * root_s - 77.942 * s + 1.728 * s**1.5 - 0.0996 * s**2) / t
            + 148.0248 + 137.1942 * root_s + 1.62142 * s
            - (24.4344 + 25.085 * root_s + 0.2474 * s) * ln_t
            + 0.053105 * root_s * t
        )
        # Millero (1995) and Yao & Millero (1995), seawater scale.
        hydroxide = seawater_to_total * exp(
            148.9802 - 13847.26 / t - 23.6521 * ln_t
            + (118.67 / t - 5.977 + 1.0495 * ln_t) * root_s
            - 0.01615 * s
        )
        phosphoric = [
            seawater_to_total * exp(ln_k)
            for ln_k in (
                -4576.752 / t + 115.54 - 18.453 * ln_t
                + (-106.736 / t + 0.69171) * root_s + (-0.65643 / t - 0.01844) * s,
                -8814.715 / t + 172.1033 - 27.927 * ln_t
                + (-160.34 / t + 1.3566) * root_s + (0.37335 / t - 0.05778) * s,
                -3070.75 / t - 18.126
                + (17.27039 / t + 2.81197) * root_s + (-44.99486 / t - 0.09984) * s,
            )
        ]
        # Clegg & Whitfield (1995) eq. 18, total scale, mol per kg of water.
        root_t = sqrt(t)
        ammonium = water * 10 ** -(
            9.244605 - 2729.33 * (1 / 298.15 - 1 / t)
            + (0.04203362 - 11.24742 / t) * s**0.25
            + (-13.6416 + 1.176949 * root_t - 0.02860785 * t + 545.4834 / t) * root_s
            + (-0.1462507 + 0.0090226468 * root_t - 0.0001471361 * t + 10.5425 / t) * s**1.5
            + (0.004669309 - 0.0001691742 * root_t - 0.5677934 / t) * s**2
            + (-2.354039e-5 + 0.009698623 / t) * s**2.5
        )
        # Mucci (1983).
        self.aragonite = 10 ** (
            -171.945 - 0.077993 * t + 2903.293 / t + 71.595 * log10(t)
            + (-0.068393 + 0.0017276 * t + 88.135 / t) * root_s
            - 0.10018 * s + 0.0059415 * s**1.5
        )

        # Weiss (1974): solubility of CO2 and its fugacity in air; Weiss & Price
        # (1980): water vapour.
        t100 = t / 100
        solubility = exp(
            -60.2409 + 93.4517 / t100 + 23.3585 * log(t100)
            + s * (0.023517 - 0.023656 * t100 + 0.0047036 * t100**2)
        )
        virial = -1636.75 + 12.0408 * t - 0.0327957 * t**2 + 3.16528e-5 * t**3
        fugacity = exp((virial + 2 * (57.7 - 0.118 * t)) * 1.01325 / (GAS_CONSTANT * t))
        vapour = exp(24.4543 - 67.4509 / t100 - 4.8489 * log(t100) - 0.000544 * s)
        self.co2_per_dry_ppm = 1e-6 * (pressure_atm - vapour) * fugacity * solubility

        # Garcia & Gordon (1992), coefficients fitted to Benson & Krause, at 1 atm;
        # temperatures of IPTS-68.
        t68 = 1.00024 * celsius
        ts = log((298.15 - t68) / (273.15 + t68))
        self.oxygen = 1e-6 * (pressure_atm - vapour) / (1 - vapour) * exp(
            5.80871 + 3.20291 * ts + 4.17887 * ts**2 + 5.10006 * ts**3
            - 9.86643e-2 * ts**4 + 3.80369 * ts**5
            + s * (-7.01577e-3 - 7.70028e-3 * ts - 1.13864e-2 * ts**2 - 9.51519e-3 * ts**3)
            - 2.75915e-7 * s**2
        )

        # EOS-80, Millero & Poisson (1981), kg/m3.
        self.density = (
            999.842594 + 6.793952e-2 * t68 - 9.09529e-3 * t68**2 + 1.001685e-4 * t68**3
            - 1.120083e-6 * t68**4 + 6.536332e-9 * t68**5
            + s * (
                8.24493e-1 - 4.0899e-3 * t68 + 7.6438e-5 * t68**2
                - 8.2467e-7 * t68**3 + 5.3875e-9 * t68**4
            )
            + s**1.5 * (-5.72466e-3 + 1.0227e-4 * t68 - 1.6546e-6 * t68**2)
            + 4.8314e-4 * s**2
        )

        self.k1, self.k2 = k1, k2
        kp1, kp2, kp3 = phosphoric

        def other_alkalinity(h, ammonia, phosphate):
            """All alkalinity that is not carbonate's: Dickson (1981)."""
            free = h / free_to_total
            orthophosphate = (
                (kp1 * kp2 * (h + 2 * kp3) - h**3)
                / (h**3 + kp1 * h**2 + kp1 * kp2 * h + kp1 * kp2 * kp3)
            )
            return (
                hydroxide / h - free
                + boron / (1 + h / borate)
                - sulfate / (1 + bisulfate / free)
                - fluoride / (1 + hydrogen_fluoride / free)
                + ammonia / (1 + h / ammonium)
                + phosphate * orthophosphate
            )

        self.other_alkalinity = other_alkalinity

    def co2_and_carbonate(self, alkalinity, carbon, ammonia, phosphate):
        """Dissolved CO2 and carbonate from what is conserved."""
        k1, k12 = self.k1, self.k1 * self.k2
        carbon, ammonia, phosphate = max(carbon, 0), max(ammonia, 0), max(phosphate, 0)
        other = self.other_alkalinity

        def excess(ph):
            h = 10**-ph
            of_carbonate = carbon * (k1 * h + 2 * k12) / (h * h + k1 * h + k12)
            return of_carbonate + other(h, ammonia, phosphate) - alkalinity

        h = 10 ** -hydrogen_exponent(excess)
        share = carbon / (h * h + k1 * h + k12)
        return share * h * h, share * k12

    def carbon_under_air(self, alkalinity, ppm, ammonium, phosphate):
        """Inorganic carbon of water in equilibrium with air."""
        co2 = ppm * self.co2_per_dry_ppm

        def excess(ph):
            h = 10**-ph
            of_carbonate = co2 * self.k1 / h * (1 + 2 * self.k2 / h)
            return of_carbonate + self.other_alkalinity(h, ammonium, phosphate) - alkalinity

        h = 10 ** -hydrogen_exponent(excess)
        return co2 * (1 + self.k1 / h * (1 + self.k2 / h))


def hydrogen_exponent(excess):
    return brentq(excess, 4, 11, xtol=1e-15, rtol=1e-15)
