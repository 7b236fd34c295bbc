# Written by `cargo xtask stubs`; change the Rust side instead.
"""
The native half of halimeda; import `halimeda` instead.
"""

from _typeshed import SupportsGetItem, SupportsLenAndGetItem
from typing import Any, Final, SupportsFloat, SupportsIndex, final
import numpy as np
from numpy.typing import ArrayLike
from numpy.typing import NDArray
from halimeda._states import CarbonateStates
from typing import overload

__all__ = ["__version__", "Addition", "AlkalinityParts", "BalancedDose", "BufferFactors", "BufferReading", "CarbonateState", "Consumption", "ContentEstimate", "Correction", "Description", "Dose", "DoseEffect", "DoseLimits", "DosePlan", "DoseVerdict", "DosedSystem", "DosedWater", "EquilibriumConstants", "Excess", "Exchange", "ExchangePath", "FilmFlow", "Harvest", "KeeperLog", "KitReading", "Limit", "LivestockRates", "Members", "NitrogenToPhosphorus", "OrganicMatter", "Parameter", "ProbeCalibration", "ProbeDrift", "ProbeReading", "ReactorEffluent", "ReaerationFit", "Relation", "Salt", "Sensitivities", "Stoichiometry", "Supplement", "TissueMetals", "TotalGasPressure", "TurfRates", "TurfStock", "Uncertainties", "UnionisedAmmonia", "Water", "_Measure", "_outputs", "_restore_state", "_restore_water", "_split_quantity", "_statuses", "air_pressure_from_sea_level", "air_vapour_pressure_kpa", "alkalinity_fall_umol_per_kg_per_day", "ask", "ask_log", "balanced_dose", "carbon_dioxide_solubility_umol_per_kg", "carbonate", "carbonate_dissolved_by_co2", "changed_toml", "co2_dry_mole_fraction_ppm", "co2_fugacity_uatm", "co2_partial_pressure_from_fugacity_uatm", "co2_partial_pressure_uatm", "compensated_ph_nbs", "compensated_ph_total", "concentration_mg_per_l", "conductivity_from_specific_conductance", "content_at_saturation_umol_per_kg", "content_fall_umol_per_kg_per_day", "content_umol_per_kg", "coral_calcification_mol_per_day", "coralline_calcification_mol_per_day", "denitrification_mol_per_day", "diffusivity_m2_per_s", "display_photosynthesis_mol_per_day", "display_respiration_mol_per_day", "dissolved_inorganic_nitrogen", "dosed_salts", "evaporation_kg_per_day", "example_tanks", "exchange", "failure_words", "feed", "film_flow", "film_velocity_m_per_s", "fit_log", "follow_ensemble", "forecast_skill", "invented_log", "iron_oxide_uptake_mol_per_day", "irradiance_umol_per_m2_per_s", "lamp_remaining", "lever_values", "levers", "limewater_mol_per_l", "livestock", "log_rates", "measured", "mineralisation_mol_per_day", "nernst_slope_mv_per_ph", "nitrification_mol_per_day", "outcomes", "parameter_infos", "parameters", "partial_pressure_atm", "percent_saturation", "percent_saturation_at_depth", "plan_defaults", "practical_salinity_from_conductivity", "practical_salinity_from_density", "practical_salinity_from_hydrometer", "practical_salinity_from_refractive_index", "practical_salinity_from_refractometer", "practical_salinity_from_specific_gravity", "read_log", "read_log_columns", "reaeration", "reference_buffer_ph_nbs", "relations", "schmidt_number", "seawater_buffer_ph_total", "solubility_umol_per_kg", "specific_gravity", "stocks", "stoichiometry", "temperature_response", "tissue_metals", "top_off_kg_per_day", "total_gas_pressure", "transfer_factor", "transfer_m_per_day", "turf_rates", "unfitted", "unionised_ammonia", "unionised_ammonia_fraction", "upkeep_calendar", "upkeep_words", "variables", "written_toml"]

__version__: Final[str]
"""
The version of the package.
"""

@final
class Addition:
    """
    What comes into the water with a dose, or leaves it.

    Whether of a whole system, of a gram or of a day is said where it is handed out.

    Source
    ------
    Alkalinity by the definition of Dickson (1981) doi:10.1016/0198-0149(81)90121-7.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(alkalinity_eq: SupportsFloat | SupportsIndex, inorganic_carbon_mol: SupportsFloat | SupportsIndex, sodium_mol: SupportsFloat | SupportsIndex, potassium_mol: SupportsFloat | SupportsIndex, calcium_mol: SupportsFloat | SupportsIndex, magnesium_mol: SupportsFloat | SupportsIndex, strontium_mol: SupportsFloat | SupportsIndex, chloride_mol: SupportsFloat | SupportsIndex, sulfate_mol: SupportsFloat | SupportsIndex, nitrate_mol: SupportsFloat | SupportsIndex, phosphate_mol: SupportsFloat | SupportsIndex, salt_g: SupportsFloat | SupportsIndex) -> Addition: ...
    @property
    def alkalinity_eq(self, /) -> float:
        """
        Total alkalinity, equivalents.
        """
    @property
    def calcium_mol(self, /) -> float:
        """
        Calcium, mol.
        """
    @property
    def chloride_mol(self, /) -> float:
        """
        Chloride, mol.
        """
    @property
    def conservative_charge_eq(self, /) -> float:
        """
        Charge of the conservative ions, equivalents: what the alkalinity must equal.

        Source
        ------
        Wolf-Gladrow et al. (2007) doi:10.1016/j.marchem.2007.01.006.
        """
    @property
    def inorganic_carbon_mol(self, /) -> float:
        """
        Dissolved inorganic carbon, mol.
        """
    @property
    def magnesium_mol(self, /) -> float:
        """
        Magnesium, mol.
        """
    @property
    def nitrate_mol(self, /) -> float:
        """
        Nitrate, mol.
        """
    @property
    def phosphate_mol(self, /) -> float:
        """
        Phosphate, mol.
        """
    @property
    def potassium_mol(self, /) -> float:
        """
        Potassium, mol.
        """
    @property
    def salt_g(self, /) -> float:
        """
        Mass of anhydrous salt, g.
        """
    @property
    def sodium_mol(self, /) -> float:
        """
        Sodium, mol.
        """
    @property
    def strontium_mol(self, /) -> float:
        """
        Strontium, mol.
        """
    @property
    def sulfate_mol(self, /) -> float:
        """
        Sulfate, mol.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """

@final
class AlkalinityParts:
    """
    What makes up the total alkalinity, µmol/kg; acids count negative.

    Source
    ------
    Dickson (1981) doi:10.1016/0198-0149(81)90121-7.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    @property
    def ammonia_umol_per_kg(self, /) -> float:
        """
        NH3, µmol/kg.
        """
    @property
    def bicarbonate_umol_per_kg(self, /) -> float:
        """
        HCO3⁻, µmol/kg.
        """
    @property
    def bisulfate_umol_per_kg(self, /) -> float:
        """
        −HSO4⁻, µmol/kg.
        """
    @property
    def borate_umol_per_kg(self, /) -> float:
        """
        B(OH)4⁻, µmol/kg.
        """
    @property
    def carbonate_umol_per_kg(self, /) -> float:
        """
        2 CO3²⁻, µmol/kg.
        """
    @property
    def free_hydrogen_umol_per_kg(self, /) -> float:
        """
        −H⁺ (free), µmol/kg.
        """
    @property
    def hydrogen_fluoride_umol_per_kg(self, /) -> float:
        """
        −HF, µmol/kg.
        """
    @property
    def hydroxide_umol_per_kg(self, /) -> float:
        """
        OH⁻, µmol/kg.
        """
    @property
    def phosphate_umol_per_kg(self, /) -> float:
        """
        HPO4²⁻ + 2 PO4³⁻ − H3PO4, µmol/kg.
        """
    @property
    def silicate_umol_per_kg(self, /) -> float:
        """
        SiO(OH)3⁻, µmol/kg.
        """
    @property
    def sulfide_umol_per_kg(self, /) -> float:
        """
        HS⁻, µmol/kg.
        """

@final
class BalancedDose:
    """
    Daily doses in the proportion in which calcification takes them.

    Made by `balanced_dose`. What is `left_behind`, mostly sodium and chloride, stays:
    watch the salinity.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(alkalinity: Dose, calcium: Dose, magnesium: Dose, left_behind: Addition, cautions: SupportsGetItem[int, str]) -> BalancedDose: ...
    @property
    def alkalinity(self, /) -> Dose:
        """
        Dose of the alkalinity supplement per day.
        """
    @property
    def calcium(self, /) -> Dose:
        """
        Dose of the calcium supplement per day.
        """
    @property
    def cautions(self, /) -> list[str]:
        """
        What can hurt when the supplements are handled.
        """
    @property
    def doses(self, /) -> list[Dose]:
        """
        The three doses.
        """
    @property
    def left_behind(self, /) -> Addition:
        """
        What a day's doses and calcification together leave in the water.
        """
    @property
    def magnesium(self, /) -> Dose:
        """
        Dose of the magnesium supplement per day.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """

@final
class BufferFactors:
    """
    Revelle factor and buffer factors, as exact derivatives.

    With every acid system of the water, not the carbonate, borate and water of the
    paper alone.

    Source
    ------
    Egleston, Sabine & Morel (2010) doi:10.1029/2008GB003407, table 1.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    @property
    def beta_alkalinity_mol_per_kg(self, /) -> float:
        """
        (∂ln[H⁺]/∂Alk)⁻¹ at constant DIC, mol/kg.
        """
    @property
    def beta_dic_mol_per_kg(self, /) -> float:
        """
        (∂ln[H⁺]/∂DIC)⁻¹ at constant alkalinity, mol/kg.
        """
    @property
    def gamma_alkalinity_mol_per_kg(self, /) -> float:
        """
        (∂ln[CO2]/∂Alk)⁻¹ at constant DIC, mol/kg.
        """
    @property
    def gamma_dic_mol_per_kg(self, /) -> float:
        """
        (∂ln[CO2]/∂DIC)⁻¹ at constant alkalinity, mol/kg.
        """
    @property
    def omega_alkalinity_mol_per_kg(self, /) -> float:
        """
        (∂ln Ω/∂Alk)⁻¹ at constant DIC, mol/kg.
        """
    @property
    def omega_dic_mol_per_kg(self, /) -> float:
        """
        (∂ln Ω/∂DIC)⁻¹ at constant alkalinity, mol/kg.
        """
    @property
    def revelle(self, /) -> float:
        """
        ∂ln[CO2]/∂ln DIC at constant alkalinity, dimensionless.
        """

@final
class BufferReading:
    """
    What a probe showed in one buffer.

    Parameters
    ----------
    millivolts : float
        The steady potential, mV.
    temperature_celsius : float
        Temperature of the buffer, °C.
    ph_nbs, ph_total : float
        The pH of the buffer at that temperature, on one of the scales.

    Raises
    ------
    HalimedaValueError
        A number is outside its limits.
    HalimedaTypeError
        Not exactly one pH was given.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, millivolts: SupportsFloat | SupportsIndex, temperature_celsius: SupportsFloat | SupportsIndex, *, ph_nbs: SupportsFloat | SupportsIndex | None = None, ph_total: SupportsFloat | SupportsIndex | None = None) -> BufferReading: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(millivolts: SupportsFloat | SupportsIndex, temperature_celsius: SupportsFloat | SupportsIndex, ph_nbs: SupportsFloat | SupportsIndex | None, ph_total: SupportsFloat | SupportsIndex | None) -> BufferReading: ...
    @property
    def millivolts(self, /) -> float:
        """
        The steady potential, mV.
        """
    @property
    def ph_nbs(self, /) -> float | None:
        """
        The pH of the buffer on the NBS scale, if that was given.
        """
    @property
    def ph_total(self, /) -> float | None:
        """
        The pH of the buffer on the total scale, if that was given.
        """
    @property
    def temperature_celsius(self, /) -> float:
        """
        Temperature of the buffer, °C.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """

@final
class CarbonateState:
    """
    The full state of the carbonate system in one water.

    Made by `carbonate`, `Water.carbonate` and their relatives. Contents are in
    µmol per kg of seawater, pressures of CO2 in µatm; a pH names its scale.

    Examples
    --------
    >>> import halimeda as hm
    >>> water = hm.Water(temperature_celsius=25.0, practical_salinity=35.0)
    >>> state = water.carbonate(alkalinity="8.2 dKH", ph_nbs=8.2)
    >>> round(state.aragonite_saturation, 1)
    4.4
    """
    def __eq__(self, other: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Water, list[tuple[str, float]], list[float], list[str], float | None, float | None]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def alkalinity_dkh(self, /) -> float:
        """
        Total alkalinity, German degrees of carbonate hardness.
        """
    @property
    def alkalinity_parts(self, /) -> AlkalinityParts:
        """
        What makes up the total alkalinity.
        """
    @property
    def alkalinity_umol_per_kg(self, /) -> float:
        """
        Total alkalinity, µmol/kg.
        """
    @property
    def aragonite_saturation(self, /) -> float:
        """
        Saturation state of aragonite, dimensionless.
        """
    @property
    def bicarbonate_umol_per_kg(self, /) -> float:
        """
        Bicarbonate, µmol/kg.
        """
    @property
    def buffer_factors(self, /) -> BufferFactors:
        """
        Revelle factor and buffer factors.
        """
    @property
    def calcite_saturation(self, /) -> float:
        """
        Saturation state of calcite, dimensionless.
        """
    @property
    def carbon_dioxide_umol_per_kg(self, /) -> float:
        """
        Dissolved CO2, µmol/kg.
        """
    @property
    def carbonate_umol_per_kg(self, /) -> float:
        """
        Carbonate, µmol/kg.
        """
    @property
    def constants(self, /) -> EquilibriumConstants:
        """
        The constants it was solved with.
        """
    @property
    def dry_mole_fraction_co2_ppm(self, /) -> float:
        """
        Mole fraction of CO2 in dry air at equilibrium with the water, ppm.

        Raises
        ------
        HalimedaValueError
            The water is outside the range of the vapour pressure relation.
        """
    @property
    def extrapolations(self, /) -> list[str]:
        """
        Relations that were used outside the range they were published for.
        """
    @property
    def fugacity_co2_uatm(self, /) -> float:
        """
        Fugacity of CO2, µatm.
        """
    @property
    def hydrogen_free_mol_per_kg(self, /) -> float:
        """
        Hydrogen ion on the free scale, mol/kg.
        """
    @property
    def hydrogen_total_mol_per_kg(self, /) -> float:
        """
        Hydrogen ion on the total scale, mol/kg.
        """
    @property
    def hydroxide_mol_per_kg(self, /) -> float:
        """
        Hydroxide, mol/kg.
        """
    @property
    def inorganic_carbon_umol_per_kg(self, /) -> float:
        """
        Dissolved inorganic carbon, µmol/kg.
        """
    @property
    def knowns(self, /) -> dict[str, float]:
        """
        The two quantities it was solved from, by their keywords.
        """
    @property
    def partial_pressure_co2_uatm(self, /) -> float:
        """
        Partial pressure of CO2, µatm.
        """
    @property
    def ph_free(self, /) -> float:
        """
        The pH on the free scale.
        """
    @property
    def ph_nbs(self, /) -> float:
        """
        The pH on the NBS scale, what a probe calibrated in NBS buffers would show.

        Known to 0.05 at best.

        Raises
        ------
        HalimedaValueError
            The water is outside the range of Takahashi et al. (1982).
        """
    def ph_on(self, scale: str, /) -> float:
        """
        Give the pH on a scale by its name.

        Parameters
        ----------
        scale : str
            ``"total"``, ``"free"``, ``"seawater"`` or ``"nbs"``.

        Returns
        -------
        float
            The pH on that scale.

        Raises
        ------
        HalimedaValueError
            There is no such scale, or the water is outside the range of NBS's.
        """
    @property
    def ph_seawater(self, /) -> float:
        """
        The pH on the seawater scale.
        """
    @property
    def ph_total(self, /) -> float:
        """
        The pH on the total scale.
        """
    def sensitivities(self, /) -> Sensitivities:
        """
        Give the exact derivatives of the results to everything the state depends on.

        Returns
        -------
        Sensitivities
            Derivatives by result and by what it depends on.
        """
    @property
    def status(self, /) -> str:
        """
        How the row of an array would be flagged: ``"ok"`` or ``"extrapolated"``.
        """
    def to_dict(self, /) -> "dict[str, float | None]":
        """
        Give the results as a dictionary.

        None where the water is outside the range of the relation of just that result.
        """
    def uncertainties(self, /, standard: Any | None = None, *, constants: bool = True, correlations: SupportsGetItem[int, tuple[str, str, SupportsFloat | SupportsIndex]] | None = None) -> Uncertainties:
        """
        Propagate standard uncertainties of inputs and constants to the results.

        Parameters
        ----------
        standard : mapping of str to float, optional
            Standard uncertainties of inputs by their keywords in the unit of the
            keyword (``{"alkalinity_umol_per_kg": 50.0, "ph_nbs": 0.02}``; also
            ``temperature_celsius``, ``practical_salinity``, ions and bases) and of
            constants (``pk0``, ``pk1`` ... ``ph_nbs_activity``, in pK).
        constants : bool
            Start from the uncertainties of constants and of total boron of Orr et
            al. (2018), and 0.05 for the NBS scale, instead of from zero.
        correlations : list of (str, str, float), optional
            Correlation coefficients of two of the names, -1 to 1.

        Returns
        -------
        Uncertainties
            Standard uncertainties and covariances of the results.

        Raises
        ------
        HalimedaValueError
            A name is unknown, an uncertainty negative, or no joint distribution has
            these correlations.

        Source
        ------
        GUM, JCGM 100:2008, eqs. 10 and 13; Orr et al. (2018)
        doi:10.1016/j.marchem.2018.10.006, table 1.
        """
    def under_air(self, /, *, co2_ppm: SupportsFloat | SupportsIndex) -> CarbonateState:
        """
        Give the state this water tends to under air of a given CO2.

        The alkalinity is kept: it is what the water would settle at if nothing in it
        made or took up CO2.

        CO2 of a room harms people too: above some 5000 ppm (a common limit for
        eight hours at work) leave and air the room.

        Parameters
        ----------
        co2_ppm : float
            Mole fraction of CO2 in dry air, ppm (outdoors about 425).

        Returns
        -------
        CarbonateState
            The state at equilibrium.

        Raises
        ------
        HalimedaValueError
            The mole fraction is outside its limits, or the water outside the range of
            the vapour pressure.
        """
    @property
    def unionised_ammonia_umol_per_kg(self, /) -> float:
        """
        Un-ionised ammonia of the total ammonia in the water, µmol/kg.
        """
    @property
    def water(self, /) -> Water:
        """
        The water.
        """

@final
class Consumption:
    """
    What the animals and algae of a tank take out of its water in a day.

    Limits judge the dose less what is consumed, so an overstated consumption lets an
    overdose pass: measure it, without dosing, over two days or more.

    Parameters
    ----------
    alkalinity_umol_per_kg_per_day : float
        Fall of alkalinity by calcification, µmol/kg/d, up to 2000.
    magnesium_fraction, strontium_fraction : float
        Of the cations of the carbonate, mol/mol: coral aragonite some 0.004 and 0.009
        (from memory).
    nitrate_umol_per_kg_per_day : float
        Fall of nitrate, µmol/kg/d, up to 300.
    phosphate_umol_per_kg_per_day : float
        Fall of phosphate, µmol/kg/d, up to 10.

    Raises
    ------
    HalimedaValueError
        A number is outside its limits.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, *, alkalinity_umol_per_kg_per_day: SupportsFloat | SupportsIndex = 0.0, magnesium_fraction: SupportsFloat | SupportsIndex = 0.0, strontium_fraction: SupportsFloat | SupportsIndex = 0.0, nitrate_umol_per_kg_per_day: SupportsFloat | SupportsIndex = 0.0, phosphate_umol_per_kg_per_day: SupportsFloat | SupportsIndex = 0.0) -> Consumption: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(alkalinity_umol_per_kg_per_day: SupportsFloat | SupportsIndex, magnesium_fraction: SupportsFloat | SupportsIndex, strontium_fraction: SupportsFloat | SupportsIndex, nitrate_umol_per_kg_per_day: SupportsFloat | SupportsIndex, phosphate_umol_per_kg_per_day: SupportsFloat | SupportsIndex) -> Consumption: ...
    @property
    def alkalinity_umol_per_kg_per_day(self, /) -> float:
        """
        Fall of alkalinity by calcification, µmol/kg/d.
        """
    @property
    def magnesium_fraction(self, /) -> float:
        """
        Of the cations of the carbonate, mol/mol.
        """
    @property
    def nitrate_umol_per_kg_per_day(self, /) -> float:
        """
        Fall of nitrate, µmol/kg/d.
        """
    def per_day(self, /, *, water_kg: SupportsFloat | SupportsIndex) -> Addition:
        """
        Give what a system of the given mass of water loses in a day.

        Parameters
        ----------
        water_kg : float
            Mass of the water, kg.

        Returns
        -------
        Addition
            Moles per day.

        Raises
        ------
        HalimedaValueError
            The mass is outside its limits.
        """
    @property
    def phosphate_umol_per_kg_per_day(self, /) -> float:
        """
        Fall of phosphate, µmol/kg/d.
        """
    @property
    def strontium_fraction(self, /) -> float:
        """
        Of the cations of the carbonate, mol/mol.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """

@final
class ContentEstimate:
    """
    A content with its standard uncertainty.

    Parameters
    ----------
    content_umol_per_kg : float
        Best value, µmol/kg.
    standard_uncertainty_umol_per_kg : float
        One standard deviation, µmol/kg.

    Raises
    ------
    HalimedaValueError
        A number is outside its limits.

    Source
    ------
    GUM, JCGM 100:2008.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, content_umol_per_kg: SupportsFloat | SupportsIndex, standard_uncertainty_umol_per_kg: SupportsFloat | SupportsIndex) -> ContentEstimate: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(content_umol_per_kg: SupportsFloat | SupportsIndex, standard_uncertainty_umol_per_kg: SupportsFloat | SupportsIndex) -> ContentEstimate: ...
    @property
    def content_umol_per_kg(self, /) -> float:
        """
        Best value, µmol/kg.
        """
    @property
    def standard_uncertainty_umol_per_kg(self, /) -> float:
        """
        One standard deviation, µmol/kg.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """

@final
class Correction:
    """
    A wanted rise, spread over as many days and portions as the limits ask.

    Made by `DosedSystem.correction`. Kits and volumes are known to a few percent at
    best: measure again after half of it.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(days: SupportsIndex, total: Dose, plan: DosePlan, cautions: SupportsGetItem[int, str]) -> Correction: ...
    @property
    def cautions(self, /) -> list[str]:
        """
        What can hurt when the supplement is handled.
        """
    @property
    def days(self, /) -> int:
        """
        Over how many days.
        """
    @property
    def plan(self, /) -> DosePlan:
        """
        The plan of each day.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """
    @property
    def total(self, /) -> Dose:
        """
        The dose in all.
        """

@final
class Description:
    """
    A tank description that was read.
    """
    def __new__(cls, /, toml: bytes) -> Description: ...
    def facts(self, /) -> str:
        """
        JSON of all it says.
        """
    def instants(self, /, days: SupportsGetItem[int, SupportsFloat | SupportsIndex]) -> NDArray[np.int64] | None:
        """
        Moments as milliseconds since 1970, of universal time if the tank has a zone,
        else of its own clock; None if it has no start.
        """
    def parameters(self, /) -> list[float]:
        """
        Values of all parameters.
        """
    def ranges(self, /) -> list[tuple[float, float, float]]:
        """
        Low, centre and high of all parameters.
        """
    def simulate(self, /, days: SupportsFloat | SupportsIndex, sample_every_days: SupportsFloat | SupportsIndex, relative_tolerance: SupportsFloat | SupportsIndex, books_from_day: SupportsFloat | SupportsIndex, values: SupportsGetItem[int, SupportsFloat | SupportsIndex] | None, progress: Any | None) -> dict[str, Any]:
        """
        Follows the tank.
        """
    def with_setup(self, /, setup: str, from_day: SupportsFloat | SupportsIndex) -> Description:
        """
        The same tank under another setup, from its JSON, which no file holds: a plan's, or
        that of a later day from which days are counted then.
        """

@final
class Dose:
    """
    An amount of a supplement, and what it brings into the water.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(supplement: Supplement, grams: SupportsFloat | SupportsIndex | None, millilitres: SupportsFloat | SupportsIndex | None, addition: Addition, cautions: SupportsGetItem[int, str]) -> Dose: ...
    @property
    def addition(self, /) -> Addition:
        """
        What it brings into the water.
        """
    @property
    def cautions(self, /) -> list[str]:
        """
        What can hurt when it is handled.
        """
    @property
    def grams(self, /) -> float | None:
        """
        Of a solid, g.
        """
    @property
    def millilitres(self, /) -> float | None:
        """
        Of a solution, mL.
        """
    @property
    def supplement(self, /) -> Supplement:
        """
        The supplement.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """

@final
class DoseEffect:
    """
    What a plan does to the water in its first day. Made by `DosedSystem.effect`.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(before: DosedWater, at_once: DosedWater, without_exchange: DosedWater, equilibrated: DosedWater, equilibrated_undosed: DosedWater, net_per_kg: Addition, cautions: SupportsGetItem[int, str]) -> DoseEffect: ...
    @property
    def at_once(self, /) -> DosedWater:
        """
        Right after one portion: no CO2 exchanged, nothing consumed.
        """
    @property
    def before(self, /) -> DosedWater:
        """
        Before any dose.
        """
    @property
    def cautions(self, /) -> list[str]:
        """
        What can hurt when the supplements are handled.
        """
    @property
    def equilibrated(self, /) -> DosedWater:
        """
        After a day, once in equilibrium with the CO2 of the room.
        """
    @property
    def equilibrated_undosed(self, /) -> DosedWater:
        """
        Before any dose, once in equilibrium with the room.
        """
    @property
    def net_per_kg(self, /) -> Addition:
        """
        Net change per kilogram of water in a day, dose less consumption.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """
    @property
    def without_exchange(self, /) -> DosedWater:
        """
        After a day's portions and consumption, had no CO2 been exchanged.
        """

@final
class DoseLimits:
    """
    The limits a dose is judged by.

    Cautious defaults that a keeper may move, each up to a hard value beyond which a
    dose is always refused. They are common practice without a source, but for the
    saturation state; not a promise for every animal.

    Parameters
    ----------
    alkalinity_umol_per_kg_per_day : float
        Rise of alkalinity in a day, µmol/kg/d.
    calcium_mg_per_l_per_day : float
        Rise of calcium in a day, mg/L/d.
    magnesium_mg_per_l_per_day : float
        Rise of magnesium in a day, mg/L/d.
    nitrate_mg_per_l_per_day : float
        Rise of nitrate (as NO3) in a day, mg/L/d.
    phosphate_mg_per_l_per_day : float
        Rise of phosphate (as PO4) in a day, mg/L/d.
    practical_salinity_per_day : float
        Rise of salinity in a day.
    ph_step : float
        Step of the pH by one portion.
    ph_total_ceiling, ph_total_floor : float
        Highest and lowest pH (total scale) that dosing may reach.
    ph_total_without_exchange : float
        Highest pH (total scale) after a day's dosing if the water took up no CO2.
    aragonite_saturation : float
        Highest saturation state of aragonite.
    alkalinity_ceiling_umol_per_kg : float
        Highest alkalinity, µmol/kg.
    calcium_ceiling_mg_per_l : float
        Highest calcium, mg/L.
    magnesium_ceiling_mg_per_l : float
        Highest magnesium, mg/L.
    evaporation_l_per_day : float, optional
        Water that evaporates, L/d, which solutions may not exceed; limewater is judged
        only where it is given.

    Raises
    ------
    HalimedaValueError
        A value is past its hard value.

    Source
    ------
    Saturation state: Moras et al. (2022) doi:10.5194/bg-19-3537-2022. The others are
    common practice, no source.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, *, alkalinity_umol_per_kg_per_day: SupportsFloat | SupportsIndex = 350.0, calcium_mg_per_l_per_day: SupportsFloat | SupportsIndex = 20.0, magnesium_mg_per_l_per_day: SupportsFloat | SupportsIndex = 50.0, nitrate_mg_per_l_per_day: SupportsFloat | SupportsIndex = 2.0, phosphate_mg_per_l_per_day: SupportsFloat | SupportsIndex = 0.03, practical_salinity_per_day: SupportsFloat | SupportsIndex = 0.3, ph_step: SupportsFloat | SupportsIndex = 0.1, ph_total_ceiling: SupportsFloat | SupportsIndex = 8.4, ph_total_floor: SupportsFloat | SupportsIndex = 7.7, ph_total_without_exchange: SupportsFloat | SupportsIndex = 8.5, aragonite_saturation: SupportsFloat | SupportsIndex = 7.0, alkalinity_ceiling_umol_per_kg: SupportsFloat | SupportsIndex = 4200.0, calcium_ceiling_mg_per_l: SupportsFloat | SupportsIndex = 480.0, magnesium_ceiling_mg_per_l: SupportsFloat | SupportsIndex = 1500.0, evaporation_l_per_day: SupportsFloat | SupportsIndex | None = None) -> DoseLimits: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(alkalinity_umol_per_kg_per_day: SupportsFloat | SupportsIndex, calcium_mg_per_l_per_day: SupportsFloat | SupportsIndex, magnesium_mg_per_l_per_day: SupportsFloat | SupportsIndex, nitrate_mg_per_l_per_day: SupportsFloat | SupportsIndex, phosphate_mg_per_l_per_day: SupportsFloat | SupportsIndex, practical_salinity_per_day: SupportsFloat | SupportsIndex, ph_step: SupportsFloat | SupportsIndex, ph_total_ceiling: SupportsFloat | SupportsIndex, ph_total_floor: SupportsFloat | SupportsIndex, ph_total_without_exchange: SupportsFloat | SupportsIndex, aragonite_saturation: SupportsFloat | SupportsIndex, alkalinity_ceiling_umol_per_kg: SupportsFloat | SupportsIndex, calcium_ceiling_mg_per_l: SupportsFloat | SupportsIndex, magnesium_ceiling_mg_per_l: SupportsFloat | SupportsIndex, evaporation_l_per_day: SupportsFloat | SupportsIndex | None) -> DoseLimits: ...
    @property
    def alkalinity_ceiling_umol_per_kg(self, /) -> float:
        """
        Highest alkalinity, µmol/kg.
        """
    @property
    def alkalinity_umol_per_kg_per_day(self, /) -> float:
        """
        Rise of alkalinity in a day, µmol/kg/d.
        """
    @property
    def aragonite_saturation(self, /) -> float:
        """
        Highest saturation state of aragonite.
        """
    @property
    def calcium_ceiling_mg_per_l(self, /) -> float:
        """
        Highest calcium, mg/L.
        """
    @property
    def calcium_mg_per_l_per_day(self, /) -> float:
        """
        Rise of calcium in a day, mg/L/d.
        """
    @property
    def evaporation_l_per_day(self, /) -> float | None:
        """
        Water that evaporates, L/d.
        """
    @property
    def magnesium_ceiling_mg_per_l(self, /) -> float:
        """
        Highest magnesium, mg/L.
        """
    @property
    def magnesium_mg_per_l_per_day(self, /) -> float:
        """
        Rise of magnesium in a day, mg/L/d.
        """
    @property
    def nitrate_mg_per_l_per_day(self, /) -> float:
        """
        Rise of nitrate (as NO3) in a day, mg/L/d.
        """
    @property
    def ph_step(self, /) -> float:
        """
        Step of the pH by one portion.
        """
    @property
    def ph_total_ceiling(self, /) -> float:
        """
        Highest pH, total scale.
        """
    @property
    def ph_total_floor(self, /) -> float:
        """
        Lowest pH, total scale.
        """
    @property
    def ph_total_without_exchange(self, /) -> float:
        """
        Highest pH, total scale, after a day without CO2 exchange.
        """
    @property
    def phosphate_mg_per_l_per_day(self, /) -> float:
        """
        Rise of phosphate (as PO4) in a day, mg/L/d.
        """
    @property
    def practical_salinity_per_day(self, /) -> float:
        """
        Rise of salinity in a day.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """

@final
class DosePlan:
    """
    What is dosed in a day, in how many portions, against what consumption.

    Parameters
    ----------
    doses : list of Dose, optional
        The doses of a whole day.
    doses_per_day : int
        Equal portions that each is given in, 1 to 1440.
    reactor : ReactorEffluent, optional
        A calcium reactor that runs all day, instead of doses.
    consumption : Consumption, optional
        What the tank consumes.

    Raises
    ------
    HalimedaValueError
        No dose, or the number of portions is outside its limits.
    HalimedaTypeError
        Both doses and a reactor were given, or neither.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, doses: SupportsGetItem[int, Dose] | None = None, *, doses_per_day: SupportsIndex = 1, reactor: ReactorEffluent | None = None, consumption: Consumption | None = None) -> DosePlan: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(doses: SupportsGetItem[int, Dose] | None, doses_per_day: SupportsIndex, reactor: ReactorEffluent | None, consumption: Consumption | None, per_day: Addition, per_dose: Addition, solution_l_per_day: SupportsFloat | SupportsIndex, has_limewater: bool, cautions: SupportsGetItem[int, str]) -> DosePlan: ...
    @property
    def cautions(self, /) -> list[str]:
        """
        What can hurt when the supplements are handled.
        """
    @property
    def consumption(self, /) -> Consumption | None:
        """
        What the tank consumes.
        """
    @property
    def doses(self, /) -> list[Dose] | None:
        """
        The doses of a whole day.
        """
    @property
    def doses_per_day(self, /) -> int:
        """
        Equal portions that each is given in.
        """
    @property
    def has_limewater(self, /) -> bool:
        """
        Whether limewater is among the doses.
        """
    @property
    def per_day(self, /) -> Addition:
        """
        What is dosed in a day.
        """
    @property
    def per_dose(self, /) -> Addition:
        """
        What is dosed at once.
        """
    @property
    def reactor(self, /) -> ReactorEffluent | None:
        """
        A calcium reactor that runs all day.
        """
    @property
    def solution_l_per_day(self, /) -> float:
        """
        Solution dosed in a day, L/d, which takes the place of top-off water.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """

@final
class DoseVerdict:
    """
    Whether a plan stays within its limits, and every limit it does not.

    Made by `DosedSystem.judge`.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(is_accepted: bool, excesses: SupportsGetItem[int, Excess], effect: DoseEffect, cautions: SupportsGetItem[int, str]) -> DoseVerdict: ...
    def accepted(self, /) -> DoseEffect:
        """
        Give the effect of a plan that stays within every limit.

        Returns
        -------
        DoseEffect
            The effect.

        Raises
        ------
        HalimedaValueError
            A limit does not hold: its name, what the plan reaches and what is allowed.
        """
    @property
    def cautions(self, /) -> list[str]:
        """
        What can hurt when the supplements are handled.
        """
    @property
    def effect(self, /) -> DoseEffect:
        """
        What the plan does to the water, accepted or not.
        """
    @property
    def excesses(self, /) -> list[Excess]:
        """
        The limits that do not hold.
        """
    @property
    def is_accepted(self, /) -> bool:
        """
        Whether every limit holds.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """

@final
class DosedSystem:
    """
    The water that is dosed: its state, how much there is, and the CO2 of the room.

    Give measured calcium and magnesium to its water, and phosphate to its state; they
    enter the limits.

    Parameters
    ----------
    state : CarbonateState
        The water before dosing.
    volume_l, volume : float, quantity, optional
        How much of it, L.
    water_kg : float, optional
        How much of it, kg, instead of the volume.
    room_co2_ppm : float, optional
        CO2 in the dry air of the room, ppm.
    room_partial_pressure_co2_uatm : float, optional
        The same as partial pressure over the water, µatm.

    Raises
    ------
    HalimedaValueError
        A number is outside its limits.
    HalimedaTypeError
        Not exactly one was given of volume and mass, or of the two of CO2.

    Examples
    --------
    >>> import halimeda as hm
    >>> tank = hm.Water(temperature_celsius=25.5, practical_salinity=35.0).carbonate(
    ...     alkalinity_umol_per_kg=2600.0, ph_total=8.0)
    >>> system = hm.dosing.DosedSystem(
    ...     tank, water_kg=200.0, room_partial_pressure_co2_uatm=500.0)
    >>> lye = hm.dosing.Supplement.solid("sodium_hydroxide").dose(grams=5.0)
    >>> verdict = system.judge(hm.dosing.DosePlan([lye]))
    >>> verdict.is_accepted, [excess.limit for excess in verdict.excesses][:2]
    (False, ['alkalinity_per_day', 'ph_step'])
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, state: CarbonateState, *, volume_l: ArrayLike | None = None, volume: ArrayLike | None = None, water_kg: SupportsFloat | SupportsIndex | None = None, room_co2_ppm: SupportsFloat | SupportsIndex | None = None, room_partial_pressure_co2_uatm: SupportsFloat | SupportsIndex | None = None) -> DosedSystem: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(state: CarbonateState, water_kg: SupportsFloat | SupportsIndex, room_partial_pressure_co2_uatm: SupportsFloat | SupportsIndex) -> DosedSystem: ...
    def correction(self, supplement: Supplement, /, *, limits: DoseLimits | None = None, alkalinity_umol_per_kg: ArrayLike | None = None, alkalinity: ArrayLike | None = None, calcium_umol_per_kg: ArrayLike | None = None, calcium: ArrayLike | None = None, magnesium_umol_per_kg: ArrayLike | None = None, magnesium: ArrayLike | None = None, nitrate_umol_per_kg: ArrayLike | None = None, nitrate: ArrayLike | None = None, phosphate_umol_per_kg: ArrayLike | None = None, phosphate: ArrayLike | None = None) -> Correction:
        """
        Find the shortest correction, up to 60 days, that brings a wanted rise.

        Within the limits on its first day and on its last, on top of the doses that replace
        consumption. Exactly one rise is given. Measure again after half of it.

        Parameters
        ----------
        supplement : Supplement
            What is dosed.
        limits : DoseLimits, optional
            The limits; the cautious defaults unless given.
        alkalinity_umol_per_kg, alkalinity : float, quantity, optional
            Wanted rise of alkalinity, µmol/kg.
        calcium_umol_per_kg, calcium : float, quantity, optional
            Wanted rise of calcium, µmol/kg.
        magnesium_umol_per_kg, magnesium : float, quantity, optional
            Wanted rise of magnesium, µmol/kg.
        nitrate_umol_per_kg, nitrate : float, quantity, optional
            Wanted rise of nitrate, µmol/kg.
        phosphate_umol_per_kg, phosphate : float, quantity, optional
            Wanted rise of phosphate, µmol/kg.

        Returns
        -------
        Correction
            Days, the dose in all, and the plan of each day.

        Raises
        ------
        HalimedaValueError
            60 days are not enough, or the goal itself lies past a limit.
        HalimedaTypeError
            Not exactly one rise was given.

        Examples
        --------
        >>> import halimeda as hm
        >>> tank = hm.Water(temperature_celsius=25.5, practical_salinity=35.0).carbonate(
        ...     alkalinity="6 dKH", ph_total=7.95)
        >>> system = hm.dosing.DosedSystem(
        ...     tank, water_kg=200.0, room_partial_pressure_co2_uatm=500.0)
        >>> soda = hm.dosing.Supplement.solid("sodium_bicarbonate")
        >>> system.correction(soda, alkalinity="2.5 dKH").days
        3
        """
    def effect(self, plan: DosePlan, /) -> DoseEffect:
        """
        Find what a plan does to the water in its first day.

        The water that carries the doses takes the place of evaporated water.

        Parameters
        ----------
        plan : DosePlan
            The plan.

        Returns
        -------
        DoseEffect
            The water at once, after a day without exchange, and in equilibrium with the room.

        Raises
        ------
        HalimedaValueError
            The dosed water leaves the range of a relation, or more is consumed than there is.
        """
    def fewest_doses(self, doses: SupportsGetItem[int, Dose], /, *, consumption: Consumption | None = None, limits: DoseLimits | None = None) -> DosePlan:
        """
        Find the fewest portions a day with which doses are accepted.

        Parameters
        ----------
        doses : list of Dose
            The doses of a whole day.
        consumption : Consumption, optional
            What the tank consumes.
        limits : DoseLimits, optional
            The limits; the cautious defaults unless given.

        Returns
        -------
        DosePlan
            The plan.

        Raises
        ------
        HalimedaValueError
            No number of portions makes it acceptable: the limit that does not hold.
        """
    def judge(self, plan: DosePlan, limits: DoseLimits | None = None, /) -> DoseVerdict:
        """
        Judge a plan by limits.

        Parameters
        ----------
        plan : DosePlan
            The plan.
        limits : DoseLimits, optional
            The limits; the cautious defaults unless given.

        Returns
        -------
        DoseVerdict
            Whether every limit holds, and those that do not.

        Raises
        ------
        HalimedaValueError
            As `effect`, or limewater without the evaporation it replaces.
        """
    @property
    def room_partial_pressure_co2_uatm(self, /) -> float:
        """
        Partial pressure of CO2 that the water comes to equilibrium with, µatm.
        """
    @property
    def state(self, /) -> CarbonateState:
        """
        The water before dosing.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """
    @property
    def water_kg(self, /) -> float:
        """
        Mass of the water, kg.
        """

@final
class DosedWater:
    """
    One state of the dosed water.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(ph_total: SupportsFloat | SupportsIndex, alkalinity_umol_per_kg: SupportsFloat | SupportsIndex, inorganic_carbon_umol_per_kg: SupportsFloat | SupportsIndex, partial_pressure_co2_uatm: SupportsFloat | SupportsIndex, calcium_umol_per_kg: SupportsFloat | SupportsIndex, magnesium_umol_per_kg: SupportsFloat | SupportsIndex, aragonite_saturation: SupportsFloat | SupportsIndex, practical_salinity: SupportsFloat | SupportsIndex) -> DosedWater: ...
    @property
    def alkalinity_umol_per_kg(self, /) -> float:
        """
        Total alkalinity, µmol/kg.
        """
    @property
    def aragonite_saturation(self, /) -> float:
        """
        Saturation state of aragonite, dimensionless.
        """
    @property
    def calcium_umol_per_kg(self, /) -> float:
        """
        Calcium, µmol/kg.
        """
    @property
    def inorganic_carbon_umol_per_kg(self, /) -> float:
        """
        Dissolved inorganic carbon, µmol/kg.
        """
    @property
    def magnesium_umol_per_kg(self, /) -> float:
        """
        Magnesium, µmol/kg.
        """
    @property
    def partial_pressure_co2_uatm(self, /) -> float:
        """
        Partial pressure of CO2, µatm.
        """
    @property
    def ph_total(self, /) -> float:
        """
        The pH on the total scale.
        """
    @property
    def practical_salinity(self, /) -> float:
        """
        Practical salinity, by the added mass of salt.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """

@final
class EquilibriumConstants:
    """
    The stoichiometric equilibrium constants of one water.

    Each on the pH scale that its name says.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    @property
    def boron_mol_per_kg(self, /) -> float:
        """
        Total boron, mol/kg.
        """
    @property
    def calcium_mol_per_kg(self, /) -> float:
        """
        Calcium, mol/kg.
        """
    @property
    def co2_fugacity_coefficient(self, /) -> float:
        """
        Ratio of fugacity to partial pressure of CO2.
        """
    @property
    def fluoride_mol_per_kg(self, /) -> float:
        """
        Total fluoride, mol/kg.
        """
    @property
    def k0_mol_per_kg_atm(self, /) -> float:
        """
        CO2 solubility, mol kg⁻¹ atm⁻¹.
        """
    @property
    def k1_total(self, /) -> float:
        """
        First dissociation constant of carbonic acid, mol/kg, total scale.
        """
    @property
    def k2_total(self, /) -> float:
        """
        Second dissociation constant of carbonic acid, mol/kg, total scale.
        """
    @property
    def kb_total(self, /) -> float:
        """
        Dissociation constant of boric acid, mol/kg, total scale.
        """
    @property
    def kf_free(self, /) -> float:
        """
        Dissociation constant of hydrogen fluoride, mol/kg, free scale.
        """
    @property
    def ks_free(self, /) -> float:
        """
        Dissociation constant of bisulfate, mol/kg, free scale.
        """
    @property
    def ksp_aragonite(self, /) -> float:
        """
        Solubility product of aragonite, mol²/kg².
        """
    @property
    def ksp_calcite(self, /) -> float:
        """
        Solubility product of calcite, mol²/kg².
        """
    @property
    def kw_total(self, /) -> float:
        """
        Ion product of water, mol²/kg², total scale.
        """
    @property
    def sulfate_mol_per_kg(self, /) -> float:
        """
        Total sulfate, mol/kg.
        """

@final
class Excess:
    """
    A limit that a plan exceeds.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(limit: str, name: str, value: SupportsFloat | SupportsIndex, allowed: SupportsFloat | SupportsIndex, unit: str, is_floor: bool, is_past_hard_value: bool, text: str) -> Excess: ...
    @property
    def allowed(self, /) -> float:
        """
        What it may reach, in `unit`.
        """
    @property
    def is_floor(self, /) -> bool:
        """
        Whether values below the limit, instead of above, exceed it.
        """
    @property
    def is_past_hard_value(self, /) -> bool:
        """
        That no setting of the limits lets this pass.
        """
    @property
    def limit(self, /) -> str:
        """
        Name of the limit in code.
        """
    @property
    def name(self, /) -> str:
        """
        What it holds.
        """
    @property
    def text(self, /) -> str:
        """
        The refusal in words, with the source of the limit.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """
    @property
    def unit(self, /) -> str:
        """
        Unit of the numbers.
        """
    @property
    def value(self, /) -> float:
        """
        What the plan reaches, in `unit`.
        """

@final
class Exchange:
    """
    The exchange of one gas over all paths together. Made by `exchange`.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(gas: str, clearance_l_per_day: SupportsFloat | SupportsIndex, equilibrium_umol_per_kg: SupportsFloat | SupportsIndex, content_umol_per_kg: SupportsFloat | SupportsIndex, flux_mmol_per_day: SupportsFloat | SupportsIndex, extrapolations: SupportsGetItem[int, str]) -> Exchange: ...
    @property
    def clearance_l_per_day(self, /) -> float:
        """
        Water brought to equilibrium by all paths, L/d.
        """
    @property
    def content_umol_per_kg(self, /) -> float:
        """
        The content that the flux is for, µmol/kg.
        """
    @property
    def equilibrium_umol_per_kg(self, /) -> float:
        """
        The content that the paths together tend to, µmol/kg.
        """
    @property
    def extrapolations(self, /) -> list[str]:
        """
        Relations that were used outside their published range.
        """
    @property
    def flux_mmol_per_day(self, /) -> float:
        """
        Flux into the water, mmol/d; negative when gas leaves.
        """
    @property
    def gas(self, /) -> str:
        """
        The gas.
        """
    def rate_per_hour(self, /, *, volume_l: SupportsFloat | SupportsIndex) -> float:
        """
        Give kLa of a volume of water with these paths.

        Parameters
        ----------
        volume_l : float
            The water, L.

        Returns
        -------
        float
            kLa, 1/h.

        Raises
        ------
        HalimedaValueError
            The volume is outside its limits, or too small for the paths.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """

@final
class ExchangePath:
    """
    One way by which gas passes between water and air.

    Told by one of three: a transfer velocity over an area, a volumetric coefficient
    of a volume (as of a re-aeration record), or a falling film.

    Parameters
    ----------
    kind : {"open_surface", "overflow", "falling_film", "foam_fractionator"}
        Where water and air meet.
    co2_ppm : float
        Mole fraction of CO2 in the dry air of the path, ppm; paths may differ.
    transfer_velocity_cm_per_h : float, optional
        Transfer velocity, cm/h; a stirred open surface has 1 to 5 (common practice,
        no source).
    area_m2 : float, optional
        The surface, m².
    rate_per_hour : float, optional
        kLa, 1/h.
    volume_l : float, optional
        The water that kLa was measured in, L.
    film_length_m, film_width_m : float, optional
        Length of fall and wetted width (both faces of a screen), m.
    film_surface_m_per_s : float, optional
        Velocity of the film's surface, m/s, measured or of a `FilmFlow`.
    flow_l_per_h : float, optional
        Water that passes the path once, L/h: no more can come to equilibrium. Not for
        a coefficient measured on the whole tank.
    measured_gas : {"oxygen", "nitrogen", "argon", "carbon_dioxide"}
        The gas a coefficient was measured with.
    measured_celsius : float
        The temperature it was measured at, °C.
    oxygen_mole_fraction : float, optional
        Of the dry air, mol/mol; of clean air unless given.

    Raises
    ------
    HalimedaValueError
        A number is outside its limits, or there is no such kind.
    HalimedaTypeError
        Not one of the three ways was given completely.

    Source
    ------
    Falling film: Higbie (1935) Trans. AIChE 31, 365-389.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, kind: str, *, co2_ppm: SupportsFloat | SupportsIndex, transfer_velocity_cm_per_h: SupportsFloat | SupportsIndex | None = None, area_m2: SupportsFloat | SupportsIndex | None = None, rate_per_hour: SupportsFloat | SupportsIndex | None = None, volume_l: SupportsFloat | SupportsIndex | None = None, film_length_m: SupportsFloat | SupportsIndex | None = None, film_width_m: SupportsFloat | SupportsIndex | None = None, film_surface_m_per_s: SupportsFloat | SupportsIndex | None = None, flow_l_per_h: SupportsFloat | SupportsIndex | None = None, measured_gas: str = "oxygen", measured_celsius: SupportsFloat | SupportsIndex = 25.0, oxygen_mole_fraction: SupportsFloat | SupportsIndex | None = None) -> ExchangePath: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(kind: str, co2_ppm: SupportsFloat | SupportsIndex, transfer_velocity_cm_per_h: SupportsFloat | SupportsIndex | None, area_m2: SupportsFloat | SupportsIndex | None, rate_per_hour: SupportsFloat | SupportsIndex | None, volume_l: SupportsFloat | SupportsIndex | None, film_length_m: SupportsFloat | SupportsIndex | None, film_width_m: SupportsFloat | SupportsIndex | None, film_surface_m_per_s: SupportsFloat | SupportsIndex | None, flow_l_per_h: SupportsFloat | SupportsIndex | None, measured_gas: str, measured_celsius: SupportsFloat | SupportsIndex, oxygen_mole_fraction: SupportsFloat | SupportsIndex | None) -> ExchangePath: ...
    @property
    def area_m2(self, /) -> float | None:
        """
        The surface, m².
        """
    @property
    def co2_ppm(self, /) -> float:
        """
        Mole fraction of CO2 in the dry air, ppm.
        """
    @property
    def film_length_m(self, /) -> float | None:
        """
        Length of fall, m.
        """
    @property
    def film_surface_m_per_s(self, /) -> float | None:
        """
        Velocity of the film's surface, m/s.
        """
    @property
    def film_width_m(self, /) -> float | None:
        """
        Wetted width, m.
        """
    @property
    def flow_l_per_h(self, /) -> float | None:
        """
        Water that passes once, L/h.
        """
    @property
    def kind(self, /) -> str:
        """
        Where water and air meet.
        """
    @property
    def measured_celsius(self, /) -> float:
        """
        The temperature it was measured at, °C.
        """
    @property
    def measured_gas(self, /) -> str:
        """
        The gas the coefficient was measured with.
        """
    @property
    def oxygen_mole_fraction(self, /) -> float | None:
        """
        Mole fraction of oxygen in the dry air, mol/mol; of clean air if None.
        """
    @property
    def rate_per_hour(self, /) -> float | None:
        """
        The coefficient kLa, 1/h.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """
    @property
    def transfer_velocity_cm_per_h(self, /) -> float | None:
        """
        Transfer velocity, cm/h.
        """
    @property
    def volume_l(self, /) -> float | None:
        """
        The water that kLa was measured in, L.
        """

@final
class FilmFlow:
    """
    Laminar flow of a film down a wall or a screen. Made by `film_flow`.

    Source
    ------
    Nusselt (1916); Bird, Stewart & Lightfoot (2002) Transport Phenomena, 2nd ed.,
    section 2.2.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(thickness_m: SupportsFloat | SupportsIndex, surface_m_per_s: SupportsFloat | SupportsIndex, reynolds: SupportsFloat | SupportsIndex, extrapolations: SupportsGetItem[int, str]) -> FilmFlow: ...
    @property
    def extrapolations(self, /) -> list[str]:
        """
        Relations that were used outside their published range.
        """
    @property
    def reynolds(self, /) -> float:
        """
        Film Reynolds number, dimensionless; beyond some 20 the surface ripples.
        """
    @property
    def surface_m_per_s(self, /) -> float:
        """
        Velocity of its surface, m/s.
        """
    @property
    def thickness_m(self, /) -> float:
        """
        Thickness of the film, m.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """

@final
class Harvest:
    """
    What a harvest takes off. Made by `TurfStock.harvest`.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(carbon_mol: SupportsFloat | SupportsIndex, nitrogen_mol: SupportsFloat | SupportsIndex, phosphorus_mol: SupportsFloat | SupportsIndex, dry_grams: SupportsFloat | SupportsIndex, drained_grams: SupportsFloat | SupportsIndex) -> Harvest: ...
    @property
    def carbon_mol(self, /) -> float:
        """
        Carbon, mol.
        """
    @property
    def drained_grams(self, /) -> float:
        """
        Mass after draining, g.
        """
    @property
    def dry_grams(self, /) -> float:
        """
        Dry mass, g.
        """
    @property
    def nitrogen_mol(self, /) -> float:
        """
        Nitrogen, mol.
        """
    @property
    def phosphorus_mol(self, /) -> float:
        """
        Phosphorus, mol.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """

@final
class KeeperLog:
    """
    A log that was read.
    """
    def __new__(cls, /, written: str, probes: SupportsGetItem[int, tuple[str, NDArray[np.float64], NDArray[np.float64]]]) -> KeeperLog:
        """
        From what `written` and `probes` gave.
        """
    def join(self, /, other: KeeperLog) -> KeeperLog:
        """
        This log and another of the same tank as one.
        """
    def last_day(self, /) -> float | None: ...
    def probes(self, /) -> list[tuple[str, NDArray[np.float64], NDArray[np.float64]]]: ...
    def to_csv(self, /, description: Description) -> str: ...
    def until(self, /, day: SupportsFloat | SupportsIndex) -> KeeperLog: ...
    def written(self, /) -> str:
        """
        JSON of readings and entries.
        """

@final
class KitReading:
    """
    One reading of a kit, with what it leaves open.

    Made by `measured`, `between`, `below` or `above`: "not detected" is not zero and
    "off the card" is not the last colour.

    Examples
    --------
    >>> import halimeda as hm
    >>> water = hm.Water(temperature_celsius=25.0, practical_salinity=35.0)
    >>> reading = hm.nutrient.KitReading.between(5.0, 10.0, form="nitrate_as_no3")
    >>> round(reading.estimate(water).content_umol_per_kg, 1)
    118.2
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(form: str, kind: str, value_mg_per_l: SupportsFloat | SupportsIndex | None, resolution_mg_per_l: SupportsFloat | SupportsIndex | None, absolute_mg_per_l: SupportsFloat | SupportsIndex | None, relative: SupportsFloat | SupportsIndex | None, lower_mg_per_l: SupportsFloat | SupportsIndex | None, upper_mg_per_l: SupportsFloat | SupportsIndex | None) -> KitReading: ...
    @staticmethod
    def above(limit_mg_per_l: SupportsFloat | SupportsIndex, *, form: str) -> KitReading:
        """
        Read "off the top of the range".

        Parameters
        ----------
        limit_mg_per_l : float
            Top of the range, mg/L.
        form : str
            What is weighed.

        Returns
        -------
        KitReading
            The reading.

        Raises
        ------
        HalimedaValueError
            There is no such form, or the limit is outside its own.
        """
    @property
    def absolute_mg_per_l(self, /) -> float | None:
        """
        Uncertainty that does not grow with the reading, mg/L.
        """
    @staticmethod
    def below(limit_mg_per_l: SupportsFloat | SupportsIndex, *, form: str) -> KitReading:
        """
        Read "not detected".

        Parameters
        ----------
        limit_mg_per_l : float
            Detection limit, mg/L.
        form : str
            What is weighed.

        Returns
        -------
        KitReading
            The reading.

        Raises
        ------
        HalimedaValueError
            There is no such form, or the limit is zero.
        """
    @staticmethod
    def between(lower_mg_per_l: SupportsFloat | SupportsIndex, upper_mg_per_l: SupportsFloat | SupportsIndex, *, form: str) -> KitReading:
        """
        Read a colour between two of the card.

        Parameters
        ----------
        lower_mg_per_l, upper_mg_per_l : float
            The paler and the stronger colour, mg/L.
        form : str
            What is weighed.

        Returns
        -------
        KitReading
            The reading.

        Raises
        ------
        HalimedaValueError
            There is no such form, or the lower is not below the upper.
        """
    def estimate(self, water: Water, /) -> ContentEstimate:
        """
        Give the best value and its standard uncertainty.

        Parameters
        ----------
        water : Water
            The water, for its density.

        Returns
        -------
        ContentEstimate
            In moles per kilogram; of an interval the middle and its width over √12.

        Raises
        ------
        HalimedaValueError
            The reading was off the top of the range: dilute and measure again.
        """
    @property
    def form(self, /) -> str:
        """
        What is weighed.
        """
    def interval_umol_per_kg(self, water: Water, /) -> tuple[float, float | None]:
        """
        Give what the reading is compatible with.

        Parameters
        ----------
        water : Water
            The water, for its density.

        Returns
        -------
        tuple of (float, float or None)
            Lower and upper end, µmol/kg; None where nothing bounds it. Of a number two
            standard uncertainties to each side.

        Raises
        ------
        HalimedaValueError
            The upper end is outside the limits of a concentration.
        """
    @property
    def kind(self, /) -> str:
        """
        How it was read: ``"measured"``, ``"between"``, ``"below"`` or ``"above"``.
        """
    @property
    def lower_mg_per_l(self, /) -> float | None:
        """
        Lower end of what it leaves possible, mg/L.
        """
    @staticmethod
    def measured(value_mg_per_l: SupportsFloat | SupportsIndex, *, form: str, resolution_mg_per_l: SupportsFloat | SupportsIndex = 0.0, absolute_mg_per_l: SupportsFloat | SupportsIndex = 0.0, relative: SupportsFloat | SupportsIndex = 0.0) -> KitReading:
        """
        Read a number off a display or a report.

        Parameters
        ----------
        value_mg_per_l : float
            The number, mg/L.
        form : str
            What is weighed.
        resolution_mg_per_l : float
            Step of the display, mg/L.
        absolute_mg_per_l : float
            Standard uncertainty that does not grow with the reading, mg/L; of a "±"
            without stated confidence the number over √3.
        relative : float
            Standard uncertainty that does, as a share: 0.02 is 2 %.

        Returns
        -------
        KitReading
            The reading.

        Raises
        ------
        HalimedaValueError
            There is no such form, or the kit would be exact.

        Source
        ------
        GUM, JCGM 100:2008, F.2.2.1 and 4.3.7.
        """
    @property
    def relative(self, /) -> float | None:
        """
        Uncertainty that does, as a share of it.
        """
    @property
    def resolution_mg_per_l(self, /) -> float | None:
        """
        Step of the display, mg/L.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """
    @property
    def upper_mg_per_l(self, /) -> float | None:
        """
        Upper end of what it leaves possible, mg/L.
        """
    @property
    def value_mg_per_l(self, /) -> float | None:
        """
        The number shown, mg/L.
        """

@final
class Limit:
    """
    One thing a dose is judged by.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(key: str, text: str, unit: str, default: SupportsFloat | SupportsIndex, hard: SupportsFloat | SupportsIndex, is_floor: bool, source: str) -> Limit: ...
    @staticmethod
    def all() -> list[Limit]:
        """
        Give every limit.
        """
    @property
    def default(self, /) -> float:
        """
        The value a dose may reach unless the keeper chooses otherwise.
        """
    @property
    def hard(self, /) -> float:
        """
        The value past which no setting lets a dose pass.
        """
    @property
    def is_floor(self, /) -> bool:
        """
        Whether values below it, instead of above, exceed it.
        """
    @property
    def key(self, /) -> str:
        """
        Its name in code.
        """
    @property
    def source(self, /) -> str:
        """
        Where the numbers come from.
        """
    @property
    def text(self, /) -> str:
        """
        What it holds.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """
    @property
    def unit(self, /) -> str:
        """
        Unit of its numbers.
        """

@final
class LivestockRates:
    """
    Where the feed in the gut goes. Made by `livestock`.

    Source
    ------
    van Rijn (2013) Aquac. Eng. 53, 49-56.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(excreted_nitrogen_mol_per_day: SupportsFloat | SupportsIndex, excreted_phosphorus_mol_per_day: SupportsFloat | SupportsIndex, respired_carbon_mol_per_day: SupportsFloat | SupportsIndex, faeces: OrganicMatter, retained: OrganicMatter) -> LivestockRates: ...
    @property
    def excreted_nitrogen_mol_per_day(self, /) -> float:
        """
        Nitrogen excreted as ammonia, mol/d.
        """
    @property
    def excreted_phosphorus_mol_per_day(self, /) -> float:
        """
        Phosphorus excreted as phosphate, mol/d.
        """
    @property
    def faeces(self, /) -> OrganicMatter:
        """
        Faeces, per day.
        """
    @property
    def respired_carbon_mol_per_day(self, /) -> float:
        """
        Carbon respired, mol/d.
        """
    @property
    def retained(self, /) -> OrganicMatter:
        """
        Kept in the body, per day.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """

@final
class Members:
    """
    Tanks that a log leaves possible.
    """
    def __len__(self, /) -> int: ...
    def __new__(cls, /, told: str) -> Members:
        """
        From what `told` gave.
        """
    def at(self, /, day: SupportsFloat | SupportsIndex) -> str:
        """
        JSON of the setup as the first of them stands on a later day.
        """
    def parameters(self, /) -> list[list[float]]:
        """
        Values of all parameters, by member.
        """
    def told(self, /) -> str:
        """
        JSON of them.
        """

@final
class NitrogenToPhosphorus:
    """
    Molar ratio of dissolved inorganic nitrogen to phosphate.

    Not the ratio of milligrams on two kits: 5 mg/L NO3 over 0.1 mg/L PO4 is 50 by mass
    and 77 by moles.

    Parameters
    ----------
    nitrogen, phosphate : ContentEstimate
        The two, their uncertainties independent and normal.

    Raises
    ------
    HalimedaValueError
        Phosphate is zero: give it as a reading below the detection limit.

    Source
    ------
    Interval: Fieller (1954) J. R. Stat. Soc. B 16, 175-185.

    Examples
    --------
    >>> import halimeda as hm
    >>> of = hm.nutrient.ContentEstimate
    >>> ratio = hm.nutrient.NitrogenToPhosphorus(of(80.0, 8.0), of(1.0, 0.1))
    >>> round(ratio.value, 9), ratio.balance("redfield")
    (80.0, 'nitrogen_rich')
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, nitrogen: ContentEstimate, phosphate: ContentEstimate) -> NitrogenToPhosphorus: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(nitrogen: ContentEstimate, phosphate: ContentEstimate, value: SupportsFloat | SupportsIndex, standard_uncertainty: SupportsFloat | SupportsIndex, lower: SupportsFloat | SupportsIndex, upper: SupportsFloat | SupportsIndex | None) -> NitrogenToPhosphorus: ...
    def balance(self, reference: str = "redfield", /) -> str:
        """
        Compare the interval with the ratio of organic matter.

        A ratio says which would run out first, not that either is short.

        Parameters
        ----------
        reference : {"redfield", "benthic_plants"}
            Plankton, 16:1, or macroalgae and seagrasses, 30:1.

        Returns
        -------
        str
            ``"nitrogen_rich"``, ``"undecided"`` or ``"phosphorus_rich"``.

        Raises
        ------
        HalimedaValueError
            There is no such reference.

        Source
        ------
        Redfield (1958) Am. Sci. 46, 205-221; Atkinson & Smith (1983)
        doi:10.4319/lo.1983.28.3.0568.
        """
    @property
    def lower(self, /) -> float:
        """
        Lower end of its interval of about 95 %.
        """
    @property
    def nitrogen(self, /) -> ContentEstimate:
        """
        The nitrogen.
        """
    @property
    def phosphate(self, /) -> ContentEstimate:
        """
        The phosphate.
        """
    @property
    def standard_uncertainty(self, /) -> float:
        """
        Its standard uncertainty, to first order.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """
    @property
    def upper(self, /) -> float | None:
        """
        Upper end; None where phosphate cannot be told from zero.
        """
    @property
    def value(self, /) -> float:
        """
        Moles of nitrogen per mole of phosphorus.
        """

@final
class OrganicMatter:
    """
    Carbon, nitrogen and phosphorus in organic matter.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(carbon_mol: SupportsFloat | SupportsIndex, nitrogen_mol: SupportsFloat | SupportsIndex, phosphorus_mol: SupportsFloat | SupportsIndex) -> OrganicMatter: ...
    @property
    def carbon_mol(self, /) -> float:
        """
        Carbon, mol.
        """
    @property
    def nitrogen_mol(self, /) -> float:
        """
        Nitrogen, mol.
        """
    @property
    def phosphorus_mol(self, /) -> float:
        """
        Phosphorus, mol.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """

@final
class Parameter:
    """
    What is known of one parameter before anything was measured in the tank.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(name: str, unit: str, default: SupportsFloat | SupportsIndex, low: SupportsFloat | SupportsIndex, high: SupportsFloat | SupportsIndex, source: str) -> Parameter: ...
    @property
    def default(self, /) -> float:
        """
        Default value, in `unit`.
        """
    @property
    def high(self, /) -> float:
        """
        Upper end of the range it is uncertain in, in `unit`.
        """
    @property
    def low(self, /) -> float:
        """
        Lower end of the range it is uncertain in, in `unit`.
        """
    @property
    def name(self, /) -> str:
        """
        Its name.
        """
    @property
    def source(self, /) -> str:
        """
        Where the value and the range come from.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """
    @property
    def unit(self, /) -> str:
        """
        Its unit.
        """

@final
class ProbeCalibration:
    """
    Two-point calibration of a glass probe, on the scale of its buffers.

    Parameters
    ----------
    first, second : BufferReading
        What the probe showed in two buffers of one scale, at least 1 pH apart.
    isopotential_ph : float
        Where the potential does not depend on the temperature, on the scale of the
        buffers; 7 of common probes (common practice, no source).

    Raises
    ------
    HalimedaValueError
        The potential rises with pH, the buffers are too near, or slope or offset are
        beyond what a probe can show.
    HalimedaTypeError
        The buffers are of two scales.

    Source
    ------
    Buck et al. (2002) doi:10.1351/pac200274112169, sect. 11.

    Examples
    --------
    >>> import halimeda as hm
    >>> calibration = hm.probe.ProbeCalibration(
    ...     hm.probe.BufferReading(2.4, 22.0, ph_nbs=6.876),
    ...     hm.probe.BufferReading(-130.1, 22.0, ph_nbs=9.207))
    >>> round(calibration.slope_percent), calibration.health
    (97, 'good')
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, first: BufferReading, second: BufferReading, *, isopotential_ph: SupportsFloat | SupportsIndex = 7.0) -> ProbeCalibration: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(first: BufferReading, second: BufferReading, isopotential_ph: SupportsFloat | SupportsIndex, scale: str, slope_percent: SupportsFloat | SupportsIndex, offset_mv: SupportsFloat | SupportsIndex, health: str, cautions: SupportsGetItem[int, str]) -> ProbeCalibration: ...
    @property
    def cautions(self, /) -> list[str]:
        """
        What to do about it.
        """
    @property
    def first(self, /) -> BufferReading:
        """
        What the probe showed in one buffer.
        """
    @property
    def health(self, /) -> str:
        """
        ``"good"``, ``"ageing"`` or ``"replace"``.
        """
    @property
    def isopotential_ph(self, /) -> float:
        """
        Isopotential pH, on the scale of the buffers.
        """
    @property
    def offset_mv(self, /) -> float:
        """
        Potential at pH 7 and 25 °C, mV.
        """
    def read(self, /, millivolts: SupportsFloat | SupportsIndex, temperature_celsius: SupportsFloat | SupportsIndex, *, buffer_ph: SupportsFloat | SupportsIndex | None = None, potential_mv: SupportsFloat | SupportsIndex = 0.5, temperature_uncertainty_celsius: SupportsFloat | SupportsIndex = 0.5, junction_ph: SupportsFloat | SupportsIndex | None = None) -> ProbeReading:
        """
        Turn the potential in a sample into a pH with its uncertainty.

        Parameters
        ----------
        millivolts : float
            The potential, mV.
        temperature_celsius : float
            Temperature of the sample, °C.
        buffer_ph : float, optional
            Standard uncertainty of each buffer's pH; 0.01 of NBS buffers, 0.004 of seawater
            buffers unless given.
        potential_mv : float
            Standard uncertainty of each potential, mV.
        temperature_uncertainty_celsius : float
            Standard uncertainty of each temperature, °C.
        junction_ph : float, optional
            Standard uncertainty of the pH through the liquid junction; 0.05 with NBS
            buffers, 0.005 with seawater buffers unless given.

        Returns
        -------
        ProbeReading
            The pH on the scale of the buffers, with its budget.

        Raises
        ------
        HalimedaValueError
            The pH lies outside 0 to 14, or an uncertainty outside its limits.

        Source
        ------
        GUM, JCGM 100:2008; seawater buffers: Müller et al. (2018) Front. Mar. Sci. 5, 176;
        Easley & Byrne (2012) doi:10.1021/es300491s. The others are common practice.
        """
    @property
    def scale(self, /) -> str:
        """
        The scale of the buffers: ``"nbs"`` or ``"total"``.
        """
    @property
    def second(self, /) -> BufferReading:
        """
        What the probe showed in the other.
        """
    def slope_mv_per_ph(self, temperature_celsius: SupportsFloat | SupportsIndex, /) -> float:
        """
        Give the slope at a temperature.

        Parameters
        ----------
        temperature_celsius : float
            The temperature, °C.

        Returns
        -------
        float
            Slope, mV per pH, positive.

        Raises
        ------
        HalimedaValueError
            The temperature is outside its limits.
        """
    @property
    def slope_percent(self, /) -> float:
        """
        Slope, % of the theoretical one.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """
    def zero_point_ph(self, temperature_celsius: SupportsFloat | SupportsIndex, /) -> float:
        """
        Give the pH at which the potential is zero, on the scale of the buffers.

        Parameters
        ----------
        temperature_celsius : float
            The temperature, °C.

        Returns
        -------
        float
            The pH.

        Raises
        ------
        HalimedaValueError
            It lies outside 0 to 14.
        """

@final
class ProbeDrift:
    """
    How a probe changed between two calibrations, taken as linear in time.

    Parameters
    ----------
    earlier, later : ProbeCalibration
        Two calibrations of one probe, on one scale.
    days : float
        Time between them, d.

    Raises
    ------
    HalimedaValueError
        The time is outside an hour to ten years, or the isopotential points differ.
    HalimedaTypeError
        The calibrations are on two scales.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, earlier: ProbeCalibration, later: ProbeCalibration, *, days: SupportsFloat | SupportsIndex) -> ProbeDrift: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(earlier: ProbeCalibration, later: ProbeCalibration, days: SupportsFloat | SupportsIndex, offset_mv_per_month: SupportsFloat | SupportsIndex, slope_percent_per_month: SupportsFloat | SupportsIndex) -> ProbeDrift: ...
    def bias_ph(self, /, millivolts: SupportsFloat | SupportsIndex, temperature_celsius: SupportsFloat | SupportsIndex, *, days_since_earlier: SupportsFloat | SupportsIndex) -> float:
        """
        Give what a reading was too high by.

        Parameters
        ----------
        millivolts : float
            The potential of the reading, mV.
        temperature_celsius : float
            Temperature of the sample, °C.
        days_since_earlier : float
            When it was read, d after the earlier calibration, up to twice the time between
            the two.

        Returns
        -------
        float
            Difference of pH, the same on either scale.

        Raises
        ------
        HalimedaValueError
            A number is outside its limits.
        """
    @property
    def days(self, /) -> float:
        """
        Time between them, d.
        """
    @property
    def earlier(self, /) -> ProbeCalibration:
        """
        The earlier calibration.
        """
    @property
    def later(self, /) -> ProbeCalibration:
        """
        The later calibration.
        """
    @property
    def offset_mv_per_month(self, /) -> float:
        """
        Change of the potential at pH 7, mV per month.
        """
    @property
    def slope_percent_per_month(self, /) -> float:
        """
        Change of the slope, % of theory per month.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """

@final
class ProbeReading:
    """
    A pH read with a calibrated probe, with what it is worth.

    Made by `ProbeCalibration.read`.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(ph_nbs: SupportsFloat | SupportsIndex | None, ph_total: SupportsFloat | SupportsIndex | None, standard_uncertainty: SupportsFloat | SupportsIndex, instrument_uncertainty: SupportsFloat | SupportsIndex, from_buffers: SupportsFloat | SupportsIndex, from_potentials: SupportsFloat | SupportsIndex, from_temperatures: SupportsFloat | SupportsIndex, from_junction: SupportsFloat | SupportsIndex, is_bracketed: bool) -> ProbeReading: ...
    @property
    def from_buffers(self, /) -> float:
        """
        What the pH of the buffers contributes.
        """
    @property
    def from_junction(self, /) -> float:
        """
        What the liquid junction contributes.
        """
    @property
    def from_potentials(self, /) -> float:
        """
        What the potentials contribute.
        """
    @property
    def from_temperatures(self, /) -> float:
        """
        What the temperatures contribute.
        """
    @property
    def instrument_uncertainty(self, /) -> float:
        """
        The same without the liquid junction.
        """
    @property
    def is_bracketed(self, /) -> bool:
        """
        Whether the pH lies between those of the buffers, as it should.
        """
    def on_total_scale(self, water: Water, /) -> ProbeReading:
        """
        Convert a reading in NBS buffers to the total scale.

        The standard uncertainty stays: it already holds the chief one of the conversion.

        Parameters
        ----------
        water : Water
            The water that was read.

        Returns
        -------
        ProbeReading
            With both pH.

        Raises
        ------
        HalimedaValueError
            The water is outside the range of the conversion.
        """
    @property
    def ph_nbs(self, /) -> float | None:
        """
        The pH on the NBS scale, if the buffers were on it.
        """
    @property
    def ph_total(self, /) -> float | None:
        """
        The pH on the total scale, if the buffers were on it or it was converted.
        """
    @property
    def standard_uncertainty(self, /) -> float:
        """
        Standard uncertainty, in pH.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """

@final
class ReactorEffluent:
    """
    What a calcium reactor brings into the tank per day.

    Tank water in which CO2 dissolved carbonate; the reactor is fed from the tank and as
    warm. CO2 suffocates: read the cautions.

    Parameters
    ----------
    tank : CarbonateState
        The tank's water.
    alkalinity_umol_per_kg, alkalinity : float, quantity
        Alkalinity of the effluent, µmol/kg.
    ph_total, ph_nbs : float
        Its pH, measured before CO2 escapes, on one of the scales.
    flow_l_per_day, flow : float, quantity
        Its flow, L/d.
    magnesium_fraction, strontium_fraction : float
        Of the cations of the medium, mol/mol.

    Raises
    ------
    HalimedaValueError
        The effluent's alkalinity is not above the tank's, or it is so supersaturated
        that its pH or alkalinity was misread.
    HalimedaTypeError
        An argument is missing, or two pH were given.

    Examples
    --------
    >>> import halimeda as hm
    >>> tank = hm.Water(temperature_celsius=25.5, practical_salinity=35.0).carbonate(
    ...     alkalinity="8 dKH", ph_total=8.0)
    >>> reactor = hm.dosing.ReactorEffluent(
    ...     tank, alkalinity="30 dKH", ph_total=6.5, flow_l_per_day=20.0)
    >>> round(reactor.per_day.alkalinity_eq / reactor.per_day.calcium_mol, 9)
    2.0
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, tank: CarbonateState, *, alkalinity_umol_per_kg: ArrayLike | None = None, alkalinity: ArrayLike | None = None, ph_total: SupportsFloat | SupportsIndex | None = None, ph_nbs: SupportsFloat | SupportsIndex | None = None, flow_l_per_day: ArrayLike | None = None, flow: ArrayLike | None = None, magnesium_fraction: SupportsFloat | SupportsIndex = 0.0, strontium_fraction: SupportsFloat | SupportsIndex = 0.0) -> ReactorEffluent: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(tank: CarbonateState, alkalinity_umol_per_kg: SupportsFloat | SupportsIndex, ph_total: SupportsFloat | SupportsIndex | None, ph_nbs: SupportsFloat | SupportsIndex | None, flow_l_per_day: SupportsFloat | SupportsIndex, magnesium_fraction: SupportsFloat | SupportsIndex, strontium_fraction: SupportsFloat | SupportsIndex, per_day: Addition, medium_dissolved_g_per_day: SupportsFloat | SupportsIndex, carbon_dioxide_mol_per_day: SupportsFloat | SupportsIndex, aragonite_saturation: SupportsFloat | SupportsIndex, cautions: SupportsGetItem[int, str]) -> ReactorEffluent: ...
    @property
    def alkalinity_umol_per_kg(self, /) -> float:
        """
        Alkalinity of the effluent, µmol/kg.
        """
    @property
    def aragonite_saturation(self, /) -> float:
        """
        Aragonite saturation of the effluent; the nearer to one, the less CO2 is wasted.
        """
    @property
    def carbon_dioxide_mol_per_day(self, /) -> float:
        """
        CO2 from the cylinder that reaches the tank, mol/d.
        """
    @property
    def cautions(self, /) -> list[str]:
        """
        What can hurt when it is run.
        """
    @property
    def flow_l_per_day(self, /) -> float:
        """
        Its flow, L/d.
        """
    @property
    def magnesium_fraction(self, /) -> float:
        """
        Of the cations of the medium, mol/mol.
        """
    @property
    def medium_dissolved_g_per_day(self, /) -> float:
        """
        Medium dissolved, g/d.
        """
    @property
    def per_day(self, /) -> Addition:
        """
        What it brings into the tank per day.
        """
    @property
    def ph_nbs(self, /) -> float | None:
        """
        Its pH on the NBS scale, if that was given.
        """
    @property
    def ph_total(self, /) -> float | None:
        """
        Its pH on the total scale, if that was given.
        """
    @property
    def strontium_fraction(self, /) -> float:
        """
        Of the cations of the medium, mol/mol.
        """
    @property
    def tank(self, /) -> CarbonateState:
        """
        The tank's water.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """

@final
class ReaerationFit:
    """
    What a re-aeration record says of a transfer coefficient. Made by `reaeration`.

    Source
    ------
    ASCE/EWRI 2-06, Measurement of oxygen transfer in clean water.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(gas: str, rate_per_hour: SupportsFloat | SupportsIndex, rate_standard_error_per_hour: SupportsFloat | SupportsIndex, rate_low_per_hour: SupportsFloat | SupportsIndex, rate_high_per_hour: SupportsFloat | SupportsIndex, equilibrium_umol_per_kg: SupportsFloat | SupportsIndex, equilibrium_standard_error_umol_per_kg: SupportsFloat | SupportsIndex, initial_umol_per_kg: SupportsFloat | SupportsIndex, initial_standard_error_umol_per_kg: SupportsFloat | SupportsIndex, residual_sd_umol_per_kg: SupportsFloat | SupportsIndex, degrees_of_freedom: SupportsIndex) -> ReaerationFit: ...
    @property
    def degrees_of_freedom(self, /) -> int:
        """
        Number of readings less the number of fitted values.
        """
    @property
    def equilibrium_standard_error_umol_per_kg(self, /) -> float:
        """
        Its standard error, µmol/kg; zero where it was given.
        """
    @property
    def equilibrium_umol_per_kg(self, /) -> float:
        """
        The content that the record tends to, µmol/kg.
        """
    @property
    def gas(self, /) -> str:
        """
        The gas.
        """
    @property
    def initial_standard_error_umol_per_kg(self, /) -> float:
        """
        Its standard error, µmol/kg; zero where it was given.
        """
    @property
    def initial_umol_per_kg(self, /) -> float:
        """
        The content at the beginning, µmol/kg.
        """
    @property
    def rate_high_per_hour(self, /) -> float:
        """
        Upper end of its 95 % interval, 1/h.
        """
    @property
    def rate_low_per_hour(self, /) -> float:
        """
        Lower end of its 95 % interval, 1/h.
        """
    @property
    def rate_per_hour(self, /) -> float:
        """
        The coefficient kLa at the temperature of the record, 1/h.
        """
    @property
    def rate_standard_error_per_hour(self, /) -> float:
        """
        Its standard error, 1/h.
        """
    @property
    def residual_sd_umol_per_kg(self, /) -> float:
        """
        Standard deviation of the readings about the curve, µmol/kg.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """

@final
class Relation:
    """
    A published relation: its source, and the range it was fitted over.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __repr__(self, /) -> str: ...
    @property
    def doi(self, /) -> str | None:
        """
        Digital object identifier of the source, where it has one.
        """
    @property
    def name(self, /) -> str:
        """
        Quantity and author, as in messages and in `extrapolations`.
        """
    @property
    def practical_salinity(self, /) -> tuple[float, float]:
        """
        Lowest and highest practical salinity it was fitted over.
        """
    @property
    def source(self, /) -> str:
        """
        Authors, year, journal, and the equation or table.
        """
    @property
    def temperature_celsius(self, /) -> tuple[float, float]:
        """
        Lowest and highest temperature it was fitted over, °C.
        """

@final
class Salt:
    """
    A salt or base that supplements are made of.

    A hydrate that is not listed is its anhydrous salt at the purity that its formula
    gives.

    Parameters
    ----------
    key : str
        What it is called in calls: ``"sodium_bicarbonate"``; `all` has them.

    Raises
    ------
    HalimedaValueError
        There is no such salt.

    Source
    ------
    Atomic weights of IUPAC 2021 doi:10.1515/pac-2019-0603.

    Examples
    --------
    >>> import halimeda as hm
    >>> salt = hm.dosing.Salt("calcium_chloride_dihydrate")
    >>> salt.formula, round(salt.molar_mass_g_per_mol, 2)
    ('CaCl2·2H2O', 147.01)
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, key: str, /) -> Salt: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(key: str, name: str, formula: str, molar_mass_g_per_mol: SupportsFloat | SupportsIndex, per_mol: Addition, per_gram: Addition) -> Salt: ...
    @staticmethod
    def all() -> list[Salt]:
        """
        Give every salt.
        """
    @property
    def formula(self, /) -> str:
        """
        Formula, with the hydrate.
        """
    @property
    def key(self, /) -> str:
        """
        What it is called in calls.
        """
    @property
    def molar_mass_g_per_mol(self, /) -> float:
        """
        Grams per mole with the water of the hydrate, g/mol.
        """
    @property
    def name(self, /) -> str:
        """
        Name, with the hydrate.
        """
    @property
    def per_gram(self, /) -> Addition:
        """
        What a gram of it brings.
        """
    @property
    def per_mol(self, /) -> Addition:
        """
        What a mole of it brings.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """

@final
class Sensitivities:
    """
    Derivatives of every result of a state to everything it depends on.

    Each in the unit of the result per unit of the input, the others held fixed.
    Known quantities have the name of their keyword; constants enter as pK.
    """
    def __getitem__(self, output: str, /) -> dict[str, float]:
        """
        All derivatives of one result, by parameter.
        """
    def __repr__(self, /) -> str: ...
    @property
    def extrapolations(self, /) -> list[str]:
        """
        Relations that a derivative uses outside their published range.
        """
    def of(self, output: str, parameter: str, /) -> float:
        """
        Give one derivative.

        Parameters
        ----------
        output : str
            Name of a result, one of `outputs`.
        parameter : str
            Name of what it depends on, one of `parameters`.

        Returns
        -------
        float
            In the unit of the result per unit of the parameter.

        Raises
        ------
        HalimedaValueError
            There is no such name.
        """
    @property
    def outputs(self, /) -> list[str]:
        """
        Names of the results.
        """
    @property
    def parameters(self, /) -> list[str]:
        """
        Names of what they depend on.
        """
    def to_dict(self, /) -> "dict[str, dict[str, float]]":
        """
        Give all derivatives by result and parameter.
        """

@final
class Stoichiometry:
    """
    What a mole of a process adds to (positive) or takes from (negative) each pool.

    Made by `stoichiometry`. Moles per mole of what the process counts.

    Source
    ------
    Middelburg, Soetaert & Hagens (2020) doi:10.1029/2019RG000681, table 2; alkalinity:
    Wolf-Gladrow et al. (2007) doi:10.1016/j.marchem.2007.01.006.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(process: str, alkalinity: SupportsFloat | SupportsIndex, inorganic_carbon: SupportsFloat | SupportsIndex, oxygen: SupportsFloat | SupportsIndex, nitrate: SupportsFloat | SupportsIndex, nitrite: SupportsFloat | SupportsIndex, ammonia: SupportsFloat | SupportsIndex, phosphate: SupportsFloat | SupportsIndex, nitrogen_gas: SupportsFloat | SupportsIndex, calcium: SupportsFloat | SupportsIndex, magnesium: SupportsFloat | SupportsIndex, strontium: SupportsFloat | SupportsIndex, organic_carbon: SupportsFloat | SupportsIndex, organic_nitrogen: SupportsFloat | SupportsIndex, organic_phosphorus: SupportsFloat | SupportsIndex, solid_carbonate: SupportsFloat | SupportsIndex) -> Stoichiometry: ...
    @property
    def alkalinity(self, /) -> float:
        """
        Change of total alkalinity, equivalents per mole.
        """
    @property
    def ammonia(self, /) -> float:
        """
        Total ammonia.
        """
    @property
    def calcium(self, /) -> float:
        """
        Calcium.
        """
    @property
    def inorganic_carbon(self, /) -> float:
        """
        Dissolved inorganic carbon.
        """
    @property
    def magnesium(self, /) -> float:
        """
        Magnesium.
        """
    @property
    def nitrate(self, /) -> float:
        """
        Nitrate.
        """
    @property
    def nitrite(self, /) -> float:
        """
        Nitrite.
        """
    @property
    def nitrogen_gas(self, /) -> float:
        """
        Nitrogen gas, N2.
        """
    @property
    def organic_carbon(self, /) -> float:
        """
        Carbon in organic matter.
        """
    @property
    def organic_nitrogen(self, /) -> float:
        """
        Nitrogen in organic matter.
        """
    @property
    def organic_phosphorus(self, /) -> float:
        """
        Phosphorus in organic matter.
        """
    @property
    def oxygen(self, /) -> float:
        """
        Dissolved oxygen, O2.
        """
    @property
    def phosphate(self, /) -> float:
        """
        Phosphate.
        """
    @property
    def process(self, /) -> str:
        """
        The process.
        """
    @property
    def solid_carbonate(self, /) -> float:
        """
        Solid carbonate.
        """
    @property
    def strontium(self, /) -> float:
        """
        Strontium.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """

@final
class Supplement:
    """
    A salt, or several, as a solid or in solution.

    Made by `solid`, `solid_blend`, `solution`, `solution_blend`, `magnesium_blend` or
    `limewater`. Read its `cautions`: hydroxides burn and blind. The product's label and
    data sheet come first.

    Examples
    --------
    >>> import halimeda as hm
    >>> soda = hm.dosing.Supplement.solution("sodium_bicarbonate", g_per_l=80.0)
    >>> round(soda.dose(millilitres=50.0).addition.alkalinity_eq, 4)
    0.0476
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(kind: str, salts: SupportsGetItem[int, tuple[str, SupportsFloat | SupportsIndex]], purity: SupportsFloat | SupportsIndex, limewater_celsius: SupportsFloat | SupportsIndex | None, measure: str, per_unit: Addition, cautions: SupportsGetItem[int, str]) -> Supplement: ...
    @property
    def cautions(self, /) -> list[str]:
        """
        What can hurt when it is handled.
        """
    def dose(self, /, *, grams: SupportsFloat | SupportsIndex | None = None, millilitres: SupportsFloat | SupportsIndex | None = None) -> Dose:
        """
        Measure out an amount.

        Parameters
        ----------
        grams : float, optional
            Of a solid, g.
        millilitres : float, optional
            Of a solution, mL.

        Returns
        -------
        Dose
            The dose, with what it brings.

        Raises
        ------
        HalimedaValueError
            Grams of a solution, millilitres of a solid, or a number outside its limits.
        HalimedaTypeError
            Not exactly one amount was given.
        """
    def dose_for(self, water: Water, /, *, volume_l: ArrayLike | None = None, volume: ArrayLike | None = None, alkalinity_umol_per_kg: ArrayLike | None = None, alkalinity: ArrayLike | None = None, calcium_umol_per_kg: ArrayLike | None = None, calcium: ArrayLike | None = None, magnesium_umol_per_kg: ArrayLike | None = None, magnesium: ArrayLike | None = None, nitrate_umol_per_kg: ArrayLike | None = None, nitrate: ArrayLike | None = None, phosphate_umol_per_kg: ArrayLike | None = None, phosphate: ArrayLike | None = None) -> Dose:
        """
        Find the dose that brings a wanted rise.

        Whether it may be given at once is for `DosedSystem.judge` to say. Exactly one rise
        is given.

        Parameters
        ----------
        water : Water
            The water.
        volume_l, volume : float, quantity
            How much of it, L.
        alkalinity_umol_per_kg, alkalinity : float, quantity, optional
            Wanted rise of alkalinity, µmol/kg.
        calcium_umol_per_kg, calcium : float, quantity, optional
            Wanted rise of calcium, µmol/kg.
        magnesium_umol_per_kg, magnesium : float, quantity, optional
            Wanted rise of magnesium, µmol/kg.
        nitrate_umol_per_kg, nitrate : float, quantity, optional
            Wanted rise of nitrate, µmol/kg.
        phosphate_umol_per_kg, phosphate : float, quantity, optional
            Wanted rise of phosphate, µmol/kg.

        Returns
        -------
        Dose
            The dose.

        Raises
        ------
        HalimedaValueError
            The rise is negative, or the supplement brings nothing of what is wanted.
        HalimedaTypeError
            Not exactly one rise was given.

        Examples
        --------
        >>> import halimeda as hm
        >>> water = hm.Water(temperature_celsius=25.0, practical_salinity=35.0)
        >>> soda = hm.dosing.Supplement.solid("sodium_bicarbonate")
        >>> dose = soda.dose_for(water, volume_l=100.0, alkalinity="1 dKH")
        >>> round(dose.grams, 2)
        3.0
        """
    @property
    def is_limewater(self, /) -> bool:
        """
        Whether it is calcium hydroxide in water, which goes in with the top-off.
        """
    @property
    def kind(self, /) -> str:
        """
        How it was made: ``"solid"``, ``"solution"``, ``"magnesium_blend"`` or ``"limewater"``.
        """
    @staticmethod
    def limewater(*, temperature_celsius: SupportsFloat | SupportsIndex) -> Supplement:
        """
        Make clear limewater saturated with calcium hydroxide.

        Caustic: read its cautions. Only the clear part, dripped, no faster than water
        evaporates.

        Parameters
        ----------
        temperature_celsius : float
            Temperature that it was made and stands at, 0 to 40 °C.

        Returns
        -------
        Supplement
            Measured in millilitres.

        Raises
        ------
        HalimedaValueError
            The temperature is outside its limits.

        Source
        ------
        Bates, Bower & Smith (1956) doi:10.6028/jres.056.040.
        """
    @property
    def limewater_celsius(self, /) -> float | None:
        """
        Temperature that limewater is saturated at, °C.
        """
    @staticmethod
    def magnesium_blend() -> Supplement:
        """
        Make a blend of magnesium as chloride and sulfate in the ratio of seawater.

        Returns
        -------
        Supplement
            Measured in grams.

        Source
        ------
        Millero et al. (2008) doi:10.1016/j.dsr.2007.10.001, table 4.
        """
    @property
    def measure(self, /) -> str:
        """
        What it is measured by: ``"gram"`` or ``"millilitre"``.
        """
    @property
    def per_unit(self, /) -> Addition:
        """
        What one gram or millilitre brings into the water.
        """
    @property
    def purity(self, /) -> float:
        """
        Mass fraction of the salt in a solid, g/g.
        """
    @property
    def salts(self, /) -> list[tuple[str, float]]:
        """
        Its salts with their grams, or grams per litre of solution.
        """
    @staticmethod
    def solid(salt: str, /, *, purity: SupportsFloat | SupportsIndex = 1.0) -> Supplement:
        """
        Make a supplement of a solid salt.

        Parameters
        ----------
        salt : str
            Key of the salt.
        purity : float
            Mass fraction of the salt, 0.1 to 1: for impurities, or for more water of
            hydration than the formula says.

        Returns
        -------
        Supplement
            Measured in grams.

        Raises
        ------
        HalimedaValueError
            There is no such salt, or the purity is outside its limits.
        """
    @staticmethod
    def solid_blend(grams: "dict[str, float]", /) -> Supplement:
        """
        Make a dry blend of salts.

        Parameters
        ----------
        grams : mapping of str to float
            Grams of each salt by its key.

        Returns
        -------
        Supplement
            Measured in grams.

        Raises
        ------
        HalimedaValueError
            No salt, a number outside its limits, or salts that precipitate one another.
        """
    @staticmethod
    def solution(salt: str, /, *, g_per_l: SupportsFloat | SupportsIndex) -> Supplement:
        """
        Make a solution of one salt.

        Parameters
        ----------
        salt : str
            Key of the salt.
        g_per_l : float
            Grams of it, with the water of its hydrate, per litre of solution, g/L.

        Returns
        -------
        Supplement
            Measured in millilitres.

        Raises
        ------
        HalimedaValueError
            The strength is not positive, or more than dissolves at 40 °C.
        """
    @staticmethod
    def solution_blend(g_per_l: "dict[str, float]", /) -> Supplement:
        """
        Make a solution of several salts.

        Parameters
        ----------
        g_per_l : mapping of str to float
            Grams of each salt by its key, per litre of solution, g/L.

        Returns
        -------
        Supplement
            Measured in millilitres.

        Raises
        ------
        HalimedaValueError
            No salt, more than dissolves, or salts that precipitate one another.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """

@final
class TissueMetals:
    """
    Metals that leave with a harvest. Made by `tissue_metals`.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(iron_mg: SupportsFloat | SupportsIndex, aluminium_mg: SupportsFloat | SupportsIndex, copper_mg: SupportsFloat | SupportsIndex) -> TissueMetals: ...
    @property
    def aluminium_mg(self, /) -> float:
        """
        Aluminium, mg.
        """
    @property
    def copper_mg(self, /) -> float:
        """
        Copper, mg.
        """
    @property
    def iron_mg(self, /) -> float:
        """
        Iron, mg.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """

@final
class TotalGasPressure:
    """
    The pressures of all dissolved gases and of water vapour together.

    Above the pressure of the air gas can leave solution, in the water and in
    animals. Made by `total_gas_pressure`.

    Source
    ------
    Colt (1984) American Fisheries Society Special Publication 14.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(pressure_atm: SupportsFloat | SupportsIndex, delta_p_mmhg: SupportsFloat | SupportsIndex, percent: SupportsFloat | SupportsIndex, uncompensated_delta_p_mmhg: SupportsFloat | SupportsIndex, percent_at_depth: SupportsFloat | SupportsIndex, compensation_pressure_dbar: SupportsFloat | SupportsIndex, nitrogen_argon_percent: SupportsFloat | SupportsIndex | None, cautions: SupportsGetItem[int, str], extrapolations: SupportsGetItem[int, str]) -> TotalGasPressure: ...
    @property
    def cautions(self, /) -> list[str]:
        """
        What it may do to animals, and what to do.
        """
    @property
    def compensation_pressure_dbar(self, /) -> float:
        """
        Water pressure that would just hold the gas in solution, dbar.
        """
    @property
    def delta_p_mmhg(self, /) -> float:
        """
        ΔP: total gas pressure less air pressure, mmHg.
        """
    @property
    def extrapolations(self, /) -> list[str]:
        """
        Relations that were used outside their published range.
        """
    @property
    def nitrogen_argon_percent(self, /) -> float | None:
        """
        Saturation of nitrogen and argon together, %, where oxygen was given.
        """
    @property
    def percent(self, /) -> float:
        """
        Total gas pressure, % of the air pressure.
        """
    @property
    def percent_at_depth(self, /) -> float:
        """
        Total gas pressure, % of that of air and water column together.
        """
    @property
    def pressure_atm(self, /) -> float:
        """
        Total gas pressure, atm.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """
    @property
    def uncompensated_delta_p_mmhg(self, /) -> float:
        """
        The part of ΔP that the water column does not hold in solution, mmHg.
        """

@final
class TurfRates:
    """
    What the turf of a whole screen does. Made by `turf_rates`.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(fixation_mol_per_day: SupportsFloat | SupportsIndex, exudation_mol_per_day: SupportsFloat | SupportsIndex, respiration_mol_per_day: SupportsFloat | SupportsIndex, nitrate_uptake_mol_per_day: SupportsFloat | SupportsIndex, ammonium_uptake_mol_per_day: SupportsFloat | SupportsIndex, phosphate_uptake_mol_per_day: SupportsFloat | SupportsIndex, loss_per_day: SupportsFloat | SupportsIndex, cover_per_day: SupportsFloat | SupportsIndex, reserve_per_day: SupportsFloat | SupportsIndex) -> TurfRates: ...
    @property
    def ammonium_uptake_mol_per_day(self, /) -> float:
        """
        Ammonium taken up, mol/d.
        """
    @property
    def cover_per_day(self, /) -> float:
        """
        Change of the covered share, 1/d.
        """
    @property
    def exudation_mol_per_day(self, /) -> float:
        """
        Carbon exuded as dissolved organic carbon, mol/d.
        """
    @property
    def fixation_mol_per_day(self, /) -> float:
        """
        Gross carbon fixation, mol/d.
        """
    @property
    def loss_per_day(self, /) -> float:
        """
        Share of the biomass let go, 1/d.
        """
    @property
    def nitrate_uptake_mol_per_day(self, /) -> float:
        """
        Nitrate taken up, mol/d.
        """
    @property
    def phosphate_uptake_mol_per_day(self, /) -> float:
        """
        Phosphate taken up, mol/d.
        """
    @property
    def reserve_per_day(self, /) -> float:
        """
        Change of the reserve of the holdfast layer, 1/d.
        """
    @property
    def respiration_mol_per_day(self, /) -> float:
        """
        Carbon respired, mol/d.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """

@final
class TurfStock:
    """
    What grows on a whole screen.

    Parameters
    ----------
    carbon_mol, nitrogen_mol, phosphorus_mol : float
        The elements of the biomass, mol.
    cover : float
        Share of the screen that carries turf, 0 to 1.
    reserve : float
        Reserve of the holdfast layer, 0 (spent) to 1 (full).

    Raises
    ------
    HalimedaValueError
        A number is outside its limits.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, *, carbon_mol: SupportsFloat | SupportsIndex, nitrogen_mol: SupportsFloat | SupportsIndex, phosphorus_mol: SupportsFloat | SupportsIndex, cover: SupportsFloat | SupportsIndex = 1.0, reserve: SupportsFloat | SupportsIndex = 1.0) -> TurfStock: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(carbon_mol: SupportsFloat | SupportsIndex, nitrogen_mol: SupportsFloat | SupportsIndex, phosphorus_mol: SupportsFloat | SupportsIndex, cover: SupportsFloat | SupportsIndex, reserve: SupportsFloat | SupportsIndex) -> TurfStock: ...
    @property
    def carbon_mol(self, /) -> float:
        """
        Carbon of the biomass, mol.
        """
    @property
    def cover(self, /) -> float:
        """
        Share of the screen that carries turf.
        """
    def dry_grams(self, /, *, parameters: dict[str, SupportsFloat | SupportsIndex] | None = None) -> float:
        """
        Give the dry mass.

        Parameters
        ----------
        parameters : mapping of str to float, optional
            Other values than the defaults of ``halimeda.process.parameters("turf")``.

        Returns
        -------
        float
            Dry mass, g.

        Raises
        ------
        HalimedaValueError
            A parameter is outside its limits, or there is none of the name.
        """
    def harvest(self, /, *, kept_share: SupportsFloat | SupportsIndex, parameters: dict[str, SupportsFloat | SupportsIndex] | None = None) -> tuple[Harvest, TurfStock]:
        """
        Cut the turf back to a share of its mass.

        Parameters
        ----------
        kept_share : float
            What stays, 0 to 1.
        parameters : mapping of str to float, optional
            Other values than the defaults of ``halimeda.process.parameters("turf")``.

        Returns
        -------
        tuple of (Harvest, TurfStock)
            What is taken off, with its nutrients, and what stays.

        Raises
        ------
        HalimedaValueError
            A number or a parameter is outside its limits, or there is no such parameter.

        Examples
        --------
        >>> import halimeda as hm
        >>> stock = hm.turf.TurfStock(carbon_mol=1.0, nitrogen_mol=0.1, phosphorus_mol=0.008)
        >>> harvest, left = stock.harvest(kept_share=0.25)
        >>> harvest.carbon_mol, left.carbon_mol, round(harvest.dry_grams, 1)
        (0.75, 0.25, 30.0)
        """
    @property
    def nitrogen_mol(self, /) -> float:
        """
        Nitrogen of the biomass, mol.
        """
    @property
    def phosphorus_mol(self, /) -> float:
        """
        Phosphorus of the biomass, mol.
        """
    @property
    def reserve(self, /) -> float:
        """
        Reserve of the holdfast layer.
        """
    @staticmethod
    def seeded(*, lit_area_m2: SupportsFloat | SupportsIndex, settled_g_dry_per_m2: SupportsFloat | SupportsIndex = 2.0, cover: SupportsFloat | SupportsIndex = 1.0, parameters: dict[str, SupportsFloat | SupportsIndex] | None = None) -> TurfStock:
        """
        Make a screen newly wetted and seeded.

        Parameters
        ----------
        lit_area_m2 : float
            Lit area over all faces, m².
        settled_g_dry_per_m2 : float
            Dry mass of the settled cover, g/m².
        cover : float
            Share of the screen that is seeded, 0 to 1.
        parameters : mapping of str to float, optional
            Other values than the defaults of ``halimeda.process.parameters("turf")``.

        Returns
        -------
        TurfStock
            With tissue of middling nutrient content.

        Raises
        ------
        HalimedaValueError
            A number or a parameter is outside its limits, or there is no such parameter.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """

@final
class Uncertainties:
    """
    Standard uncertainties of the results of a state, to first order.
    """
    def __getitem__(self, output: str, /) -> float:
        """
        Standard uncertainty of a result, in its unit.
        """
    def __repr__(self, /) -> str: ...
    def covariance(self, first: str, second: str, /) -> float:
        """
        Give the covariance of two results.

        Parameters
        ----------
        first, second : str
            Names of the results.

        Returns
        -------
        float
            In the product of their units.

        Raises
        ------
        HalimedaValueError
            There is no such name.
        """
    def effects(self, output: str, /) -> "dict[str, float]":
        """
        Give the lines of a result's uncertainty budget.

        Parameters
        ----------
        output : str
            Name of the result.

        Returns
        -------
        dict of str to float
            What each parameter's standard uncertainty moves the result by, signed.

        Raises
        ------
        HalimedaValueError
            There is no such name.
        """
    def to_dict(self, /) -> "dict[str, float]":
        """
        Give the standard uncertainties by result.
        """

@final
class UnionisedAmmonia:
    """
    Un-ionised ammonia in a water, against the limits. Made by `unionised_ammonia`.

    Source
    ------
    Clegg & Whitfield (1995) doi:10.1016/0016-7037(95)00135-2. Limits: US EPA (1989)
    Ambient Water Quality Criteria for Ammonia (Saltwater), EPA 440/5-88-004.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[Any, list[Any]]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @staticmethod
    def _restored(content_umol_per_kg: SupportsFloat | SupportsIndex, standard_uncertainty_umol_per_kg: SupportsFloat | SupportsIndex, nh3_mg_per_l: SupportsFloat | SupportsIndex, fraction: SupportsFloat | SupportsIndex, verdict: str, cautions: SupportsGetItem[int, str], extrapolations: SupportsGetItem[int, str]) -> UnionisedAmmonia: ...
    @property
    def cautions(self, /) -> list[str]:
        """
        What it means for the animals.
        """
    @property
    def content_umol_per_kg(self, /) -> float:
        """
        NH3, µmol/kg.
        """
    @property
    def extrapolations(self, /) -> list[str]:
        """
        Relations that were used outside their published range.
        """
    @property
    def fraction(self, /) -> float:
        """
        Share of total ammonia, 0 to 1.
        """
    @property
    def nh3_mg_per_l(self, /) -> float:
        """
        NH3, mg/L as NH3.
        """
    @property
    def standard_uncertainty_umol_per_kg(self, /) -> float:
        """
        Its standard uncertainty, µmol/kg.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Give the fields by name.
        """
    @property
    def verdict(self, /) -> str:
        """
        ``"within_limits"``, ``"above_chronic"`` or ``"above_acute"``.
        """

@final
class Water:
    """
    One body of seawater, or an array of them.

    The salinity is given in one way: ``practical_salinity``, a specific gravity
    with its reference temperatures, what a glass hydrometer shows floating in
    the water, a conductivity at the water's temperature, a density, a refractive
    index relative to air (sodium D, at the water's temperature), or the practical
    salinity on the scale of a seawater refractometer zeroed in pure water.

    Parameters
    ----------
    temperature_celsius, temperature : number or array, quantity
        Temperature (ITS-90), °C, -5 to 60; each relation has its own, narrower
        range. With its unit: ``temperature="78 °F"``.
    practical_salinity : number or array
        Practical salinity (PSS-78), 0 to 50.
    specific_gravity : quantity
        Specific gravity with its reference: ``"1.0264 25/25 °C"``.
    hydrometer : quantity
        What a glass hydrometer shows, floating in the water, with its reference:
        ``"1.0258 25/25 °C"``.
    conductivity_ms_per_cm, conductivity : number or array, quantity
        Conductivity at the water's temperature and pressure, mS/cm.
    density_kg_per_m3, density : number or array, quantity
        Density at the water's temperature and one atmosphere, kg/m³.
    refractive_index : number or array
        Relative to air, sodium D line, at the water's temperature.
    refractometer : number or array
        Practical salinity on a seawater scale that was set to zero in pure water
        and compensates for temperature.
    water_pressure_dbar, water_pressure : number or array, quantity
        Pressure of the water column above, dbar; zero unless given.
    air_pressure_atm, air_pressure : number or array, quantity
        Pressure of the air at the tank, atm; one unless given.
    altitude_m, altitude : number or array, quantity
        Altitude instead of the air pressure, m.
    calcium_umol_per_kg, calcium : number or array, quantity
        Measured calcium, µmol/kg; of the reference composition unless given.
    magnesium_umol_per_kg, magnesium : number or array, quantity
        Measured magnesium, µmol/kg; of the reference composition unless given.
    potassium_umol_per_kg, potassium : number or array, quantity
        Measured potassium, µmol/kg; of the reference composition unless given.
    strontium_umol_per_kg, strontium : number or array, quantity
        Measured strontium, µmol/kg; of the reference composition unless given.
    sulfate_umol_per_kg, sulfate : number or array, quantity
        Measured total sulfate, µmol/kg; of the reference composition unless given.
    fluoride_umol_per_kg, fluoride : number or array, quantity
        Measured total fluoride, µmol/kg; of the reference composition unless given.
    boron_umol_per_kg, boron : number or array, quantity
        Measured total boron, µmol/kg; from the salinity by `total_boron` unless given.
    extrapolate : bool
        Evaluate relations outside the range they were published for, and say
        which, instead of refusing.

    Raises
    ------
    HalimedaValueError
        An input is outside its limits or a relation's published range.
    HalimedaTypeError
        A unit is missing or wrong, or an input is given twice or not at all.

    Source
    ------
    Salinity: PSS-78 (UNESCO 1981); density: Millero & Poisson (1981)
    doi:10.1016/0198-0149(81)90122-9; refractive index: Millard & Seaver (1990)
    doi:10.1016/0198-0149(90)90086-B; composition: Millero et al. (2008)
    doi:10.1016/j.dsr.2007.10.001.

    Examples
    --------
    >>> import halimeda as hm
    >>> water = hm.Water(temperature="78 °F", specific_gravity="1.0264 25/25 °C")
    >>> round(water.practical_salinity, 2)
    35.04
    """
    def __eq__(self, other: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __new__(cls, /, *, temperature_celsius: ArrayLike | None = None, temperature: ArrayLike | None = None, practical_salinity: ArrayLike | None = None, specific_gravity: ArrayLike | None = None, hydrometer: ArrayLike | None = None, conductivity_ms_per_cm: ArrayLike | None = None, conductivity: ArrayLike | None = None, density_kg_per_m3: ArrayLike | None = None, density: ArrayLike | None = None, refractive_index: ArrayLike | None = None, refractometer: ArrayLike | None = None, water_pressure_dbar: ArrayLike | None = None, water_pressure: ArrayLike | None = None, air_pressure_atm: ArrayLike | None = None, air_pressure: ArrayLike | None = None, altitude_m: ArrayLike | None = None, altitude: ArrayLike | None = None, calcium_umol_per_kg: ArrayLike | None = None, calcium: ArrayLike | None = None, magnesium_umol_per_kg: ArrayLike | None = None, magnesium: ArrayLike | None = None, potassium_umol_per_kg: ArrayLike | None = None, potassium: ArrayLike | None = None, strontium_umol_per_kg: ArrayLike | None = None, strontium: ArrayLike | None = None, sulfate_umol_per_kg: ArrayLike | None = None, sulfate: ArrayLike | None = None, fluoride_umol_per_kg: ArrayLike | None = None, fluoride: ArrayLike | None = None, boron_umol_per_kg: ArrayLike | None = None, boron: ArrayLike | None = None, extrapolate: bool = False) -> Water: ...
    def __reduce__(self, /) -> tuple[Any, tuple[list[Any | None], list[int] | None, Any | None, bool]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def _shape(self, /) -> list[int]:
        """
        Shape of the arrays it was made of; empty for one water.
        """
    @property
    def air_pressure_atm(self, /) -> Any:
        """
        Pressure of the air above, atm.
        """
    @property
    def boron_umol_per_kg(self, /) -> Any | None:
        """
        Measured total boron, µmol/kg.

        None where it was not measured; `carbonate` takes it from the salinity then.
        """
    @property
    def calcium_umol_per_kg(self, /) -> Any:
        """
        Calcium, measured or of the reference composition, µmol/kg.
        """
    def carbonate(self, /, *, alkalinity_umol_per_kg: ArrayLike | None = None, alkalinity: ArrayLike | None = None, inorganic_carbon_umol_per_kg: ArrayLike | None = None, inorganic_carbon: ArrayLike | None = None, ph_total: ArrayLike | None = None, ph_free: ArrayLike | None = None, ph_seawater: ArrayLike | None = None, ph_nbs: ArrayLike | None = None, ph: ArrayLike | None = None, partial_pressure_co2_uatm: ArrayLike | None = None, partial_pressure_co2: ArrayLike | None = None, fugacity_co2_uatm: ArrayLike | None = None, fugacity_co2: ArrayLike | None = None, carbon_dioxide_umol_per_kg: ArrayLike | None = None, carbon_dioxide: ArrayLike | None = None, bicarbonate_umol_per_kg: ArrayLike | None = None, bicarbonate: ArrayLike | None = None, carbonate_umol_per_kg: ArrayLike | None = None, carbonate: ArrayLike | None = None, aragonite_saturation: ArrayLike | None = None, calcite_saturation: ArrayLike | None = None, phosphate_umol_per_kg: ArrayLike | None = None, phosphate: ArrayLike | None = None, silicate_umol_per_kg: ArrayLike | None = None, silicate: ArrayLike | None = None, ammonia_umol_per_kg: ArrayLike | None = None, ammonia: ArrayLike | None = None, sulfide_umol_per_kg: ArrayLike | None = None, sulfide: ArrayLike | None = None, carbonic_acid: str = "lueker2000", bisulfate: str = "dickson1990", hydrogen_fluoride: str = "perez_fraga1987", total_boron: str = "lee2010", outputs: Any | None = None, threads: SupportsIndex = 1, errors: str = "flag") -> Any:
        """
        Solve the carbonate system of this water from two known quantities.

        Parameters
        ----------
        alkalinity_umol_per_kg, alkalinity : number or array, quantity
            Total alkalinity, µmol/kg. With its unit: ``alkalinity="8.2 dKH"``.
        inorganic_carbon_umol_per_kg, inorganic_carbon : number or array, quantity
            Dissolved inorganic carbon, µmol/kg.
        ph_total, ph_free, ph_seawater, ph_nbs : number or array
            One pH, 0 to 14, on the scale of the name. A probe that was calibrated in
            the buffers 4, 7 and 10 shows `ph_nbs`.
        ph : quantity
            One pH with its scale: ``"8.1 total"``, ``"8.2 NBS"``.
        partial_pressure_co2_uatm, partial_pressure_co2 : number or array, quantity
            Partial pressure of CO2, µatm.
        fugacity_co2_uatm, fugacity_co2 : number or array, quantity
            Fugacity of CO2, µatm.
        carbon_dioxide_umol_per_kg, carbon_dioxide : number or array, quantity
            Dissolved CO2, µmol/kg.
        bicarbonate_umol_per_kg, bicarbonate : number or array, quantity
            Bicarbonate, µmol/kg.
        carbonate_umol_per_kg, carbonate : number or array, quantity
            Carbonate, µmol/kg.
        aragonite_saturation, calcite_saturation : number or array
            Saturation state, with the calcium of the water.
        phosphate_umol_per_kg, phosphate : number or array, quantity
            Total phosphate, µmol/kg; zero unless given.
        silicate_umol_per_kg, silicate : number or array, quantity
            Total silicate, µmol/kg; zero unless given.
        ammonia_umol_per_kg, ammonia : number or array, quantity
            Total ammonia, µmol/kg; zero unless given.
        sulfide_umol_per_kg, sulfide : number or array, quantity
            Total sulfide, µmol/kg; zero unless given.
        carbonic_acid : str
            Published K1 and K2: ``"lueker2000"``, ``"dickson_millero1987"``,
            ``"millero2010"``, ``"waters2014"`` or ``"sulpis2020"``.
        bisulfate : str
            Published KS: ``"dickson1990"`` or ``"khoo1977"``.
        hydrogen_fluoride : str
            Published KF: ``"perez_fraga1987"`` or ``"dickson_riley1979"``.
        total_boron : str
            Ratio of total boron to salinity where boron was not measured:
            ``"lee2010"`` or ``"uppstrom1974"``.
        outputs : str or sequence of str, optional
            Results to compute of arrays, by attribute name; ``"buffer_factors"`` and
            ``"alkalinity_parts"`` stand for all of theirs. The usual ones unless given.
        threads : int
            Cores to use for arrays; 0 stands for all.
        errors : str
            Refused rows of arrays: ``"flag"`` for NaN and a status, ``"raise"`` for the
            exception of the first.

        Returns
        -------
        CarbonateState or CarbonateStates
            One state for scalars, an array of them for arrays.

        Raises
        ------
        HalimedaValueError
            An input is outside its limits or a relation's published range; no state or
            two states satisfy the pair (see `Water.carbonate_all`).
        HalimedaTypeError
            Not two known quantities, a unit missing or wrong, a keyword given twice.

        Source
        ------
        Dickson, Sabine & Christian (2007) PICES Special Publication 3; solver:
        Munhoven (2013) doi:10.5194/gmd-6-1367-2013, (2021) doi:10.5194/gmd-14-4225-2021.

        Examples
        --------
        >>> import halimeda as hm
        >>> water = hm.Water(temperature_celsius=25.5, practical_salinity=35.0)
        >>> state = water.carbonate(alkalinity="8.2 dKH", ph_total=8.1)
        >>> round(state.inorganic_carbon_umol_per_kg)
        2459
        """
    def carbonate_all(self, /, *, alkalinity_umol_per_kg: ArrayLike | None = None, alkalinity: ArrayLike | None = None, inorganic_carbon_umol_per_kg: ArrayLike | None = None, inorganic_carbon: ArrayLike | None = None, ph_total: ArrayLike | None = None, ph_free: ArrayLike | None = None, ph_seawater: ArrayLike | None = None, ph_nbs: ArrayLike | None = None, ph: ArrayLike | None = None, partial_pressure_co2_uatm: ArrayLike | None = None, partial_pressure_co2: ArrayLike | None = None, fugacity_co2_uatm: ArrayLike | None = None, fugacity_co2: ArrayLike | None = None, carbon_dioxide_umol_per_kg: ArrayLike | None = None, carbon_dioxide: ArrayLike | None = None, bicarbonate_umol_per_kg: ArrayLike | None = None, bicarbonate: ArrayLike | None = None, carbonate_umol_per_kg: ArrayLike | None = None, carbonate: ArrayLike | None = None, aragonite_saturation: ArrayLike | None = None, calcite_saturation: ArrayLike | None = None, phosphate_umol_per_kg: ArrayLike | None = None, phosphate: ArrayLike | None = None, silicate_umol_per_kg: ArrayLike | None = None, silicate: ArrayLike | None = None, ammonia_umol_per_kg: ArrayLike | None = None, ammonia: ArrayLike | None = None, sulfide_umol_per_kg: ArrayLike | None = None, sulfide: ArrayLike | None = None, carbonic_acid: str = "lueker2000", bisulfate: str = "dickson1990", hydrogen_fluoride: str = "perez_fraga1987", total_boron: str = "lee2010") -> "tuple[CarbonateState, ...]":
        """
        Solve for every state of this one water that two known quantities allow.

        One, or two in the order of their pH (alkalinity with carbonate, inorganic carbon
        with bicarbonate or carbonate).

        Parameters
        ----------
        alkalinity_umol_per_kg, alkalinity : number or array, quantity
            Total alkalinity, µmol/kg. With its unit: ``alkalinity="8.2 dKH"``.
        inorganic_carbon_umol_per_kg, inorganic_carbon : number or array, quantity
            Dissolved inorganic carbon, µmol/kg.
        ph_total, ph_free, ph_seawater, ph_nbs : number or array
            One pH, 0 to 14, on the scale of the name. A probe that was calibrated in
            the buffers 4, 7 and 10 shows `ph_nbs`.
        ph : quantity
            One pH with its scale: ``"8.1 total"``, ``"8.2 NBS"``.
        partial_pressure_co2_uatm, partial_pressure_co2 : number or array, quantity
            Partial pressure of CO2, µatm.
        fugacity_co2_uatm, fugacity_co2 : number or array, quantity
            Fugacity of CO2, µatm.
        carbon_dioxide_umol_per_kg, carbon_dioxide : number or array, quantity
            Dissolved CO2, µmol/kg.
        bicarbonate_umol_per_kg, bicarbonate : number or array, quantity
            Bicarbonate, µmol/kg.
        carbonate_umol_per_kg, carbonate : number or array, quantity
            Carbonate, µmol/kg.
        aragonite_saturation, calcite_saturation : number or array
            Saturation state, with the calcium of the water.
        phosphate_umol_per_kg, phosphate : number or array, quantity
            Total phosphate, µmol/kg; zero unless given.
        silicate_umol_per_kg, silicate : number or array, quantity
            Total silicate, µmol/kg; zero unless given.
        ammonia_umol_per_kg, ammonia : number or array, quantity
            Total ammonia, µmol/kg; zero unless given.
        sulfide_umol_per_kg, sulfide : number or array, quantity
            Total sulfide, µmol/kg; zero unless given.
        carbonic_acid : str
            Published K1 and K2: ``"lueker2000"``, ``"dickson_millero1987"``,
            ``"millero2010"``, ``"waters2014"`` or ``"sulpis2020"``.
        bisulfate : str
            Published KS: ``"dickson1990"`` or ``"khoo1977"``.
        hydrogen_fluoride : str
            Published KF: ``"perez_fraga1987"`` or ``"dickson_riley1979"``.
        total_boron : str
            Ratio of total boron to salinity where boron was not measured:
            ``"lee2010"`` or ``"uppstrom1974"``.

        Returns
        -------
        tuple of CarbonateState
            The states.

        Raises
        ------
        HalimedaValueError
            An input is outside its limits or a relation's published range, or no state
            satisfies the pair.
        HalimedaTypeError
            Not two known quantities, a unit missing or wrong, a keyword given twice.
        """
    @property
    def chlorinity_g_per_kg(self, /) -> Any:
        """
        Chlorinity, g/kg.
        """
    @property
    def conductivity_ms_per_cm(self, /) -> Any:
        """
        Conductivity at the water's temperature and pressure, mS/cm.
        """
    @property
    def density_kg_per_m3(self, /) -> Any:
        """
        Density at one atmosphere, kg/m³.

        Source: EOS-80, Millero & Poisson (1981) doi:10.1016/0198-0149(81)90122-9.
        """
    @property
    def extrapolate(self, /) -> bool:
        """
        Whether relations may be used outside their published range.
        """
    @property
    def extrapolations(self, /) -> list[str]:
        """
        Relations of the register whose published range the water lies outside of.
        """
    @property
    def fluoride_umol_per_kg(self, /) -> Any:
        """
        Total fluoride, measured or of the reference composition, µmol/kg.
        """
    @property
    def ionic_strength_mol_per_kg_h2o(self, /) -> Any:
        """
        Ionic strength, mol per kg of water.

        Source: Dickson, Sabine & Christian (2007), ch. 5.
        """
    @property
    def magnesium_umol_per_kg(self, /) -> Any:
        """
        Magnesium, measured or of the reference composition, µmol/kg.
        """
    @property
    def potassium_umol_per_kg(self, /) -> Any:
        """
        Potassium, measured or of the reference composition, µmol/kg.
        """
    @property
    def practical_salinity(self, /) -> Any:
        """
        Practical salinity (PSS-78).
        """
    @property
    def pure_water_density_kg_per_m3(self, /) -> Any:
        """
        Density of pure water at the same temperature, kg/m³.
        """
    @property
    def refractive_index(self, /) -> Any:
        """
        Refractive index relative to air, sodium D line, at the water's temperature.
        """
    @property
    def specific_gravity_25_25(self, /) -> Any:
        """
        Specific gravity at 25 °C relative to pure water at 25 °C.
        """
    @property
    def strontium_umol_per_kg(self, /) -> Any:
        """
        Strontium, measured or of the reference composition, µmol/kg.
        """
    @property
    def sulfate_umol_per_kg(self, /) -> Any:
        """
        Total sulfate, measured or of the reference composition, µmol/kg.
        """
    @property
    def temperature_celsius(self, /) -> Any:
        """
        Temperature (ITS-90), °C.
        """
    def to_dict(self, /) -> "dict[str, object]":
        """
        Everything as a dictionary of the attributes.
        """
    @property
    def vapour_pressure_atm(self, /) -> Any:
        """
        Vapour pressure over the water, atm.

        Source: Weiss & Price (1980) doi:10.1016/0304-4203(80)90024-9.
        """
    @property
    def water_pressure_dbar(self, /) -> Any:
        """
        Pressure of the water column above, dbar.
        """

@final
class _Measure:
    """
    A kind of quantity, for the containers that carry units of their own.
    """
    @property
    def kept_in(self, /) -> str:
        """
        The unit its numbers are kept in.
        """
    def knows(self, /, unit: str) -> bool:
        """
        Whether a unit of this name is one of its.
        """

def _outputs() -> list[tuple[str, str]]:
    """
    Names and units of all outputs, in order.
    """

def _restore_state(water: Water, knowns: SupportsGetItem[int, tuple[str, SupportsFloat | SupportsIndex]], minor: SupportsLenAndGetItem[SupportsFloat | SupportsIndex], chosen: SupportsLenAndGetItem[str], under_air_ppm: SupportsFloat | SupportsIndex | None, ph_total: SupportsFloat | SupportsIndex | None) -> CarbonateState:
    """
    A state from what its `__reduce__` stored.
    """

def _restore_water(columns: SupportsGetItem[int, Any | None], shape: SupportsGetItem[int, SupportsIndex] | None, wrapper: Any | None, extrapolate: bool) -> Water:
    """
    A water from what its `__reduce__` stored.
    """

def _split_quantity(keyword: str, text: str) -> tuple[float, str]:
    """
    The number and the unit of a quantity string.
    """

def _statuses() -> list[str]:
    """
    Names of the statuses of rows by their number.
    """

def air_pressure_from_sea_level(*, sea_level_pressure_atm: ArrayLike | None = None, sea_level_pressure: ArrayLike | None = None, altitude_m: ArrayLike | None = None, altitude: ArrayLike | None = None, errors: str = "flag") -> Any:
    """
    Air pressure at the tank from what a weather report gives for sea level.

    Parameters
    ----------
    sea_level_pressure_atm, sea_level_pressure : number or array, quantity
        Pressure reduced to sea level, atm.
    altitude_m, altitude : number or array, quantity
        Altitude of the tank, m.
    errors : str
        Refused rows of arrays: ``"flag"`` for NaN and a warning with the reasons,
        ``"raise"`` for an exception.

    Returns
    -------
    number or array
        Air pressure at the tank, atm.

    Raises
    ------
    HalimedaValueError
        An input is outside its limits.

    Source
    ------
    ISO 2533:1975, standard atmosphere.
    """

def air_vapour_pressure_kpa(*, air_celsius: ArrayLike | None = None, relative_humidity: ArrayLike | None = None, errors: str = "flag") -> Any:
    """
    Vapour pressure in the air of a room.

    Parameters
    ----------
    air_celsius : number or array
        Temperature of the air, °C.
    relative_humidity : number or array
        Relative humidity, 0 to 1.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Vapour pressure, kPa.

    Raises
    ------
    HalimedaValueError
        A number is outside its limits.

    Source
    ------
    Weiss & Price (1980) doi:10.1016/0304-4203(80)90024-9.

    Examples
    --------
    >>> import halimeda as hm
    >>> round(hm.process.air_vapour_pressure_kpa(air_celsius=20.0, relative_humidity=0.5), 2)
    1.17
    """

def alkalinity_fall_umol_per_kg_per_day(water: Water, /, *, first_alkalinity_umol_per_kg: ArrayLike | None = None, first_alkalinity: ArrayLike | None = None, second_alkalinity_umol_per_kg: ArrayLike | None = None, second_alkalinity: ArrayLike | None = None, days: ArrayLike | None = None, errors: str = "flag") -> Any:
    """
    Fall of alkalinity per day between two readings without dosing.

    Parameters
    ----------
    water : Water
        The water.
    first_alkalinity_umol_per_kg, first_alkalinity : number or array, quantity
        The earlier reading, µmol/kg.
    second_alkalinity_umol_per_kg, second_alkalinity : number or array, quantity
        The later reading, µmol/kg.
    days : number or array
        Time between them, d, 0.25 to 60.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Fall, µmol/kg/d.

    Raises
    ------
    HalimedaValueError
        The alkalinity rose, or a number is outside its limits.

    Examples
    --------
    >>> import halimeda as hm
    >>> water = hm.Water(temperature_celsius=25.0, practical_salinity=35.0)
    >>> round(hm.dosing.alkalinity_fall_umol_per_kg_per_day(
    ...     water, first_alkalinity="8.2 dKH", second_alkalinity="7.6 dKH", days=2.0), 1)
    104.6
    """

def ask(question: str, description: Description, about: str, ranges: SupportsGetItem[int, tuple[SupportsFloat | SupportsIndex, SupportsFloat | SupportsIndex, SupportsFloat | SupportsIndex]], fitted: Members | None, changed: Description | None, progress: Any | None) -> str:
    """
    Asks a question about a tank, in all its uncertainty: with the parameters that a
    log leaves possible, else with draws from ranges.
    """

def ask_log(question: str, description: Description, log: KeeperLog, members: Members, earlier: Members | None, about: str, progress: Any | None) -> str:
    """
    Asks a question about a tank with a log.
    """

def balanced_dose(consumption: Consumption, water: Water, /, *, volume_l: ArrayLike | None = None, volume: ArrayLike | None = None, alkalinity: Supplement, calcium: Supplement, magnesium: Supplement) -> BalancedDose:
    """
    Find the daily doses that replace a consumption.

    Parameters
    ----------
    consumption : Consumption
        What the tank consumes.
    water : Water
        The water.
    volume_l, volume : float, quantity
        How much of it, L.
    alkalinity, calcium, magnesium : Supplement
        What each is replaced with.

    Returns
    -------
    BalancedDose
        The doses, and what they leave behind.

    Raises
    ------
    HalimedaValueError
        A supplement brings nothing of what it is for, or the calcium or magnesium
        supplement brings alkalinity.

    Examples
    --------
    >>> import halimeda as hm
    >>> water = hm.Water(temperature_celsius=25.5, practical_salinity=35.0)
    >>> daily = hm.dosing.balanced_dose(
    ...     hm.dosing.Consumption(alkalinity_umol_per_kg_per_day=104.6,
    ...                           magnesium_fraction=0.02, strontium_fraction=0.009),
    ...     water, volume_l=180.0,
    ...     alkalinity=hm.dosing.Supplement.solution("sodium_bicarbonate", g_per_l=80.0),
    ...     calcium=hm.dosing.Supplement.solution("calcium_chloride_dihydrate", g_per_l=70.0),
    ...     magnesium=hm.dosing.Supplement.magnesium_blend())
    >>> round(daily.alkalinity.millilitres, 1)
    20.2
    """

def carbon_dioxide_solubility_umol_per_kg(water: Water, /, *, fugacity_co2_uatm: ArrayLike | None = None, fugacity_co2: ArrayLike | None = None, errors: str = "flag") -> Any:
    """
    Dissolved CO2 in equilibrium with a fugacity.

    Parameters
    ----------
    water : Water
        The water.
    fugacity_co2_uatm, fugacity_co2 : number or array, quantity
        Fugacity of CO2, µatm.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Dissolved CO2, µmol/kg.

    Raises
    ------
    HalimedaValueError
        The water or the fugacity is outside its limits.

    Source
    ------
    Weiss (1974) doi:10.1016/0304-4203(74)90015-2, eq. 12.
    """

@overload
def carbonate(*, temperature_celsius: float | None = None, temperature: str | None = None, practical_salinity: float | None = None, specific_gravity: str | None = None, hydrometer: str | None = None, conductivity_ms_per_cm: float | None = None, conductivity: str | None = None, density_kg_per_m3: float | None = None, density: str | None = None, refractive_index: float | None = None, refractometer: float | None = None, water_pressure_dbar: float | None = None, water_pressure: str | None = None, air_pressure_atm: float | None = None, air_pressure: str | None = None, altitude_m: float | None = None, altitude: str | None = None, calcium_umol_per_kg: float | None = None, calcium: str | None = None, magnesium_umol_per_kg: float | None = None, magnesium: str | None = None, potassium_umol_per_kg: float | None = None, potassium: str | None = None, strontium_umol_per_kg: float | None = None, strontium: str | None = None, sulfate_umol_per_kg: float | None = None, sulfate: str | None = None, fluoride_umol_per_kg: float | None = None, fluoride: str | None = None, boron_umol_per_kg: float | None = None, boron: str | None = None, extrapolate: bool = False, alkalinity_umol_per_kg: float | None = None, alkalinity: str | None = None, inorganic_carbon_umol_per_kg: float | None = None, inorganic_carbon: str | None = None, ph_total: float | None = None, ph_free: float | None = None, ph_seawater: float | None = None, ph_nbs: float | None = None, ph: str | None = None, partial_pressure_co2_uatm: float | None = None, partial_pressure_co2: str | None = None, fugacity_co2_uatm: float | None = None, fugacity_co2: str | None = None, carbon_dioxide_umol_per_kg: float | None = None, carbon_dioxide: str | None = None, bicarbonate_umol_per_kg: float | None = None, bicarbonate: str | None = None, carbonate_umol_per_kg: float | None = None, carbonate: str | None = None, aragonite_saturation: float | None = None, calcite_saturation: float | None = None, phosphate_umol_per_kg: float | None = None, phosphate: str | None = None, silicate_umol_per_kg: float | None = None, silicate: str | None = None, ammonia_umol_per_kg: float | None = None, ammonia: str | None = None, sulfide_umol_per_kg: float | None = None, sulfide: str | None = None, carbonic_acid: str = "lueker2000", bisulfate: str = "dickson1990", hydrogen_fluoride: str = "perez_fraga1987", total_boron: str = "lee2010", outputs: Any | None = None, threads: SupportsIndex = 1, errors: str = "flag") -> CarbonateState: ...
@overload
def carbonate(*, temperature_celsius: ArrayLike | None = None, temperature: ArrayLike | None = None, practical_salinity: ArrayLike | None = None, specific_gravity: ArrayLike | None = None, hydrometer: ArrayLike | None = None, conductivity_ms_per_cm: ArrayLike | None = None, conductivity: ArrayLike | None = None, density_kg_per_m3: ArrayLike | None = None, density: ArrayLike | None = None, refractive_index: ArrayLike | None = None, refractometer: ArrayLike | None = None, water_pressure_dbar: ArrayLike | None = None, water_pressure: ArrayLike | None = None, air_pressure_atm: ArrayLike | None = None, air_pressure: ArrayLike | None = None, altitude_m: ArrayLike | None = None, altitude: ArrayLike | None = None, calcium_umol_per_kg: ArrayLike | None = None, calcium: ArrayLike | None = None, magnesium_umol_per_kg: ArrayLike | None = None, magnesium: ArrayLike | None = None, potassium_umol_per_kg: ArrayLike | None = None, potassium: ArrayLike | None = None, strontium_umol_per_kg: ArrayLike | None = None, strontium: ArrayLike | None = None, sulfate_umol_per_kg: ArrayLike | None = None, sulfate: ArrayLike | None = None, fluoride_umol_per_kg: ArrayLike | None = None, fluoride: ArrayLike | None = None, boron_umol_per_kg: ArrayLike | None = None, boron: ArrayLike | None = None, extrapolate: bool = False, alkalinity_umol_per_kg: ArrayLike | None = None, alkalinity: ArrayLike | None = None, inorganic_carbon_umol_per_kg: ArrayLike | None = None, inorganic_carbon: ArrayLike | None = None, ph_total: ArrayLike | None = None, ph_free: ArrayLike | None = None, ph_seawater: ArrayLike | None = None, ph_nbs: ArrayLike | None = None, ph: ArrayLike | None = None, partial_pressure_co2_uatm: ArrayLike | None = None, partial_pressure_co2: ArrayLike | None = None, fugacity_co2_uatm: ArrayLike | None = None, fugacity_co2: ArrayLike | None = None, carbon_dioxide_umol_per_kg: ArrayLike | None = None, carbon_dioxide: ArrayLike | None = None, bicarbonate_umol_per_kg: ArrayLike | None = None, bicarbonate: ArrayLike | None = None, carbonate_umol_per_kg: ArrayLike | None = None, carbonate: ArrayLike | None = None, aragonite_saturation: ArrayLike | None = None, calcite_saturation: ArrayLike | None = None, phosphate_umol_per_kg: ArrayLike | None = None, phosphate: ArrayLike | None = None, silicate_umol_per_kg: ArrayLike | None = None, silicate: ArrayLike | None = None, ammonia_umol_per_kg: ArrayLike | None = None, ammonia: ArrayLike | None = None, sulfide_umol_per_kg: ArrayLike | None = None, sulfide: ArrayLike | None = None, carbonic_acid: str = "lueker2000", bisulfate: str = "dickson1990", hydrogen_fluoride: str = "perez_fraga1987", total_boron: str = "lee2010", outputs: Any | None = None, threads: SupportsIndex = 1, errors: str = "flag") -> CarbonateStates: ...
@overload
def carbonate(table: Any, /, *, temperature_celsius: ArrayLike | None = None, temperature: ArrayLike | None = None, practical_salinity: ArrayLike | None = None, specific_gravity: ArrayLike | None = None, hydrometer: ArrayLike | None = None, conductivity_ms_per_cm: ArrayLike | None = None, conductivity: ArrayLike | None = None, density_kg_per_m3: ArrayLike | None = None, density: ArrayLike | None = None, refractive_index: ArrayLike | None = None, refractometer: ArrayLike | None = None, water_pressure_dbar: ArrayLike | None = None, water_pressure: ArrayLike | None = None, air_pressure_atm: ArrayLike | None = None, air_pressure: ArrayLike | None = None, altitude_m: ArrayLike | None = None, altitude: ArrayLike | None = None, calcium_umol_per_kg: ArrayLike | None = None, calcium: ArrayLike | None = None, magnesium_umol_per_kg: ArrayLike | None = None, magnesium: ArrayLike | None = None, potassium_umol_per_kg: ArrayLike | None = None, potassium: ArrayLike | None = None, strontium_umol_per_kg: ArrayLike | None = None, strontium: ArrayLike | None = None, sulfate_umol_per_kg: ArrayLike | None = None, sulfate: ArrayLike | None = None, fluoride_umol_per_kg: ArrayLike | None = None, fluoride: ArrayLike | None = None, boron_umol_per_kg: ArrayLike | None = None, boron: ArrayLike | None = None, extrapolate: bool = False, alkalinity_umol_per_kg: ArrayLike | None = None, alkalinity: ArrayLike | None = None, inorganic_carbon_umol_per_kg: ArrayLike | None = None, inorganic_carbon: ArrayLike | None = None, ph_total: ArrayLike | None = None, ph_free: ArrayLike | None = None, ph_seawater: ArrayLike | None = None, ph_nbs: ArrayLike | None = None, ph: ArrayLike | None = None, partial_pressure_co2_uatm: ArrayLike | None = None, partial_pressure_co2: ArrayLike | None = None, fugacity_co2_uatm: ArrayLike | None = None, fugacity_co2: ArrayLike | None = None, carbon_dioxide_umol_per_kg: ArrayLike | None = None, carbon_dioxide: ArrayLike | None = None, bicarbonate_umol_per_kg: ArrayLike | None = None, bicarbonate: ArrayLike | None = None, carbonate_umol_per_kg: ArrayLike | None = None, carbonate: ArrayLike | None = None, aragonite_saturation: ArrayLike | None = None, calcite_saturation: ArrayLike | None = None, phosphate_umol_per_kg: ArrayLike | None = None, phosphate: ArrayLike | None = None, silicate_umol_per_kg: ArrayLike | None = None, silicate: ArrayLike | None = None, ammonia_umol_per_kg: ArrayLike | None = None, ammonia: ArrayLike | None = None, sulfide_umol_per_kg: ArrayLike | None = None, sulfide: ArrayLike | None = None, carbonic_acid: str = "lueker2000", bisulfate: str = "dickson1990", hydrogen_fluoride: str = "perez_fraga1987", total_boron: str = "lee2010", outputs: Any | None = None, threads: SupportsIndex = 1, errors: str = "flag") -> Any:
    """
    Solve the carbonate system of waters from two known quantities.

    Parameters
    ----------
    table : DataFrame or Dataset, optional
        Of pandas, polars or xarray; its columns are named as the keywords, and the
        result is a table of the same kind, with the column ``status``.
    temperature_celsius, temperature : number or array, quantity
        Temperature (ITS-90), °C, -5 to 60; each relation has its own, narrower
        range. With its unit: ``temperature="78 °F"``.
    practical_salinity : number or array
        Practical salinity (PSS-78), 0 to 50.
    specific_gravity : quantity
        Specific gravity with its reference: ``"1.0264 25/25 °C"``.
    hydrometer : quantity
        What a glass hydrometer shows, floating in the water, with its reference:
        ``"1.0258 25/25 °C"``.
    conductivity_ms_per_cm, conductivity : number or array, quantity
        Conductivity at the water's temperature and pressure, mS/cm.
    density_kg_per_m3, density : number or array, quantity
        Density at the water's temperature and one atmosphere, kg/m³.
    refractive_index : number or array
        Relative to air, sodium D line, at the water's temperature.
    refractometer : number or array
        Practical salinity on a seawater scale that was set to zero in pure water
        and compensates for temperature.
    water_pressure_dbar, water_pressure : number or array, quantity
        Pressure of the water column above, dbar; zero unless given.
    air_pressure_atm, air_pressure : number or array, quantity
        Pressure of the air at the tank, atm; one unless given.
    altitude_m, altitude : number or array, quantity
        Altitude instead of the air pressure, m.
    calcium_umol_per_kg, calcium : number or array, quantity
        Measured calcium, µmol/kg; of the reference composition unless given.
    magnesium_umol_per_kg, magnesium : number or array, quantity
        Measured magnesium, µmol/kg; of the reference composition unless given.
    potassium_umol_per_kg, potassium : number or array, quantity
        Measured potassium, µmol/kg; of the reference composition unless given.
    strontium_umol_per_kg, strontium : number or array, quantity
        Measured strontium, µmol/kg; of the reference composition unless given.
    sulfate_umol_per_kg, sulfate : number or array, quantity
        Measured total sulfate, µmol/kg; of the reference composition unless given.
    fluoride_umol_per_kg, fluoride : number or array, quantity
        Measured total fluoride, µmol/kg; of the reference composition unless given.
    boron_umol_per_kg, boron : number or array, quantity
        Measured total boron, µmol/kg; from the salinity by `total_boron` unless given.
    extrapolate : bool
        Evaluate relations outside the range they were published for, and say
        which, instead of refusing.
    alkalinity_umol_per_kg, alkalinity : number or array, quantity
        Total alkalinity, µmol/kg. With its unit: ``alkalinity="8.2 dKH"``.
    inorganic_carbon_umol_per_kg, inorganic_carbon : number or array, quantity
        Dissolved inorganic carbon, µmol/kg.
    ph_total, ph_free, ph_seawater, ph_nbs : number or array
        One pH, 0 to 14, on the scale of the name. A probe that was calibrated in
        the buffers 4, 7 and 10 shows `ph_nbs`.
    ph : quantity
        One pH with its scale: ``"8.1 total"``, ``"8.2 NBS"``.
    partial_pressure_co2_uatm, partial_pressure_co2 : number or array, quantity
        Partial pressure of CO2, µatm.
    fugacity_co2_uatm, fugacity_co2 : number or array, quantity
        Fugacity of CO2, µatm.
    carbon_dioxide_umol_per_kg, carbon_dioxide : number or array, quantity
        Dissolved CO2, µmol/kg.
    bicarbonate_umol_per_kg, bicarbonate : number or array, quantity
        Bicarbonate, µmol/kg.
    carbonate_umol_per_kg, carbonate : number or array, quantity
        Carbonate, µmol/kg.
    aragonite_saturation, calcite_saturation : number or array
        Saturation state, with the calcium of the water.
    phosphate_umol_per_kg, phosphate : number or array, quantity
        Total phosphate, µmol/kg; zero unless given.
    silicate_umol_per_kg, silicate : number or array, quantity
        Total silicate, µmol/kg; zero unless given.
    ammonia_umol_per_kg, ammonia : number or array, quantity
        Total ammonia, µmol/kg; zero unless given.
    sulfide_umol_per_kg, sulfide : number or array, quantity
        Total sulfide, µmol/kg; zero unless given.
    carbonic_acid : str
        Published K1 and K2: ``"lueker2000"``, ``"dickson_millero1987"``,
        ``"millero2010"``, ``"waters2014"`` or ``"sulpis2020"``.
    bisulfate : str
        Published KS: ``"dickson1990"`` or ``"khoo1977"``.
    hydrogen_fluoride : str
        Published KF: ``"perez_fraga1987"`` or ``"dickson_riley1979"``.
    total_boron : str
        Ratio of total boron to salinity where boron was not measured:
        ``"lee2010"`` or ``"uppstrom1974"``.
    outputs : str or sequence of str, optional
        Results to compute of arrays, by attribute name; ``"buffer_factors"`` and
        ``"alkalinity_parts"`` stand for all of theirs. The usual ones unless given.
    threads : int
        Cores to use for arrays; 0 stands for all.
    errors : str
        Refused rows of arrays: ``"flag"`` for NaN and a status, ``"raise"`` for the
        exception of the first.

    Returns
    -------
    CarbonateState or CarbonateStates
        One state for scalars, an array of them for arrays.

    Raises
    ------
    HalimedaValueError
        An input is outside its limits or a relation's published range; no state or
        two states satisfy the pair (see `Water.carbonate_all`).
    HalimedaTypeError
        Not two known quantities, a unit missing or wrong, a keyword given twice.

    Source
    ------
    Dickson, Sabine & Christian (2007) PICES Special Publication 3; solver:
    Munhoven (2013) doi:10.5194/gmd-6-1367-2013, (2021) doi:10.5194/gmd-14-4225-2021.

    Examples
    --------
    >>> import halimeda as hm
    >>> state = hm.carbonate(temperature_celsius=25.0, practical_salinity=35.0,
    ...                      alkalinity_umol_per_kg=2300.0, inorganic_carbon_umol_per_kg=2000.0)
    >>> round(state.ph_total, 2)
    8.04
    """

def carbonate_dissolved_by_co2(*, grams: SupportsFloat | SupportsIndex, magnesium_fraction: SupportsFloat | SupportsIndex = 0.0, strontium_fraction: SupportsFloat | SupportsIndex = 0.0) -> Addition:
    """
    Find what a mass of carbonate brings that CO2 dissolves without excess.

    Parameters
    ----------
    grams : float
        The carbonate, g.
    magnesium_fraction, strontium_fraction : float
        Of its cations, mol/mol.

    Returns
    -------
    Addition
        Two equivalents of alkalinity and two moles of inorganic carbon per mole.

    Raises
    ------
    HalimedaValueError
        A number is outside its limits.

    Examples
    --------
    >>> import halimeda as hm
    >>> round(hm.dosing.carbonate_dissolved_by_co2(grams=50.04e-3).alkalinity_eq, 5)
    0.001
    """

def changed_toml(text: str, changes: SupportsGetItem[int, tuple[str, Any]]) -> str:
    """
    A description with keys, named by their path as in `feeding[2].mass`, set to
    other values, or taken out where the value is None.
    """

def co2_dry_mole_fraction_ppm(water: Water, /, *, partial_pressure_co2_uatm: ArrayLike | None = None, partial_pressure_co2: ArrayLike | None = None, errors: str = "flag") -> Any:
    """
    Mole fraction of CO2 in dry air in equilibrium with a partial pressure.

    Parameters
    ----------
    water : Water
        The water.
    partial_pressure_co2_uatm, partial_pressure_co2 : number or array, quantity
        Partial pressure of CO2, µatm.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Mole fraction, ppm.

    Raises
    ------
    HalimedaValueError
        The water is outside its limits, or the pressure above that of the air.

    Source
    ------
    As `co2_partial_pressure_uatm`.
    """

def co2_fugacity_uatm(water: Water, /, *, partial_pressure_co2_uatm: ArrayLike | None = None, partial_pressure_co2: ArrayLike | None = None, errors: str = "flag") -> Any:
    """
    Fugacity of CO2 at a partial pressure.

    Parameters
    ----------
    water : Water
        The water.
    partial_pressure_co2_uatm, partial_pressure_co2 : number or array, quantity
        Partial pressure of CO2, µatm.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Fugacity, µatm.

    Raises
    ------
    HalimedaValueError
        The water or the pressure is outside its limits.

    Source
    ------
    Weiss (1974) doi:10.1016/0304-4203(74)90015-2, as in Dickson, Sabine & Christian
    (2007) SOP 24.
    """

def co2_partial_pressure_from_fugacity_uatm(water: Water, /, *, fugacity_co2_uatm: ArrayLike | None = None, fugacity_co2: ArrayLike | None = None, errors: str = "flag") -> Any:
    """
    Partial pressure of CO2 at a fugacity.

    Parameters
    ----------
    water : Water
        The water.
    fugacity_co2_uatm, fugacity_co2 : number or array, quantity
        Fugacity of CO2, µatm.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Partial pressure, µatm.

    Raises
    ------
    HalimedaValueError
        The water or the fugacity is outside its limits.

    Source
    ------
    As `co2_fugacity_uatm`.
    """

def co2_partial_pressure_uatm(water: Water, /, *, co2_ppm: ArrayLike | None = None, co2: ArrayLike | None = None, errors: str = "flag") -> Any:
    """
    Partial pressure of CO2 in moist air over the water.

    It is what the water tends to, and with its alkalinity gives the pH it tends
    to. A meter that shows several thousand ppm is first of all a reason to
    ventilate: 5000 ppm is the usual limit for a working day.

    Parameters
    ----------
    water : Water
        The water.
    co2_ppm, co2 : number or array, quantity
        Mole fraction of CO2 in dry air, ppm.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Partial pressure, µatm.

    Raises
    ------
    HalimedaValueError
        The water or the mole fraction is outside its limits.

    Source
    ------
    Dickson, Sabine & Christian (2007) PICES Special Publication 3, SOP 5; vapour
    pressure of Weiss & Price (1980) doi:10.1016/0304-4203(80)90024-9.

    Examples
    --------
    >>> import halimeda as hm
    >>> water = hm.Water(temperature_celsius=25.0, practical_salinity=35.0)
    >>> round(hm.gas.co2_partial_pressure_uatm(water, co2_ppm=420.0), 1)
    407.1
    """

def compensated_ph_nbs(*, displayed_ph_nbs: ArrayLike | None = None, meter_celsius: ArrayLike | None = None, probe_celsius: ArrayLike | None = None, errors: str = "flag") -> Any:
    """
    NBS pH of a sample whose meter worked with another temperature than the probe's.

    About 0.003 per °C and pH away from 7. The change of the water's own pH with
    temperature is another matter, for `carbonate`.

    Parameters
    ----------
    displayed_ph_nbs : number or array
        What the meter shows, NBS scale.
    meter_celsius : number or array
        Temperature that the meter worked with, °C.
    probe_celsius : number or array
        Temperature that the probe had, °C.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        The pH on the NBS scale.

    Raises
    ------
    HalimedaValueError
        A number is outside its limits.

    Examples
    --------
    >>> import halimeda as hm
    >>> round(hm.probe.compensated_ph_nbs(
    ...     displayed_ph_nbs=8.2, meter_celsius=25.0, probe_celsius=30.0), 2)
    8.18
    """

def compensated_ph_total(*, displayed_ph_total: ArrayLike | None = None, meter_celsius: ArrayLike | None = None, probe_celsius: ArrayLike | None = None, errors: str = "flag") -> Any:
    """
    Total pH of a sample whose meter worked with another temperature than the probe's.

    As `compensated_ph_nbs`, for a probe calibrated in seawater buffers.

    Parameters
    ----------
    displayed_ph_total : number or array
        What the meter shows, total scale.
    meter_celsius : number or array
        Temperature that the meter worked with, °C.
    probe_celsius : number or array
        Temperature that the probe had, °C.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        The pH on the total scale.

    Raises
    ------
    HalimedaValueError
        A number is outside its limits.
    """

def concentration_mg_per_l(water: Water, /, *, content_umol_per_kg: ArrayLike | None = None, content: ArrayLike | None = None, form: str = "", errors: str = "flag") -> Any:
    """
    Concentration by mass from a content.

    Parameters
    ----------
    water : Water
        The water, for its density.
    content_umol_per_kg, content : number or array, quantity
        Content, µmol/kg.
    form : str
        What is weighed, as in `content_umol_per_kg`.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Concentration, mg/L.

    Raises
    ------
    HalimedaValueError
        There is no such form, or a number is outside its limits.

    Source
    ------
    Atomic weights of IUPAC 2021 doi:10.1515/pac-2019-0603.
    """

def conductivity_from_specific_conductance(*, specific_conductance_ms_per_cm: ArrayLike | None = None, specific_conductance: ArrayLike | None = None, temperature_celsius: ArrayLike | None = None, temperature: ArrayLike | None = None, reference_celsius: SupportsFloat | SupportsIndex = 25.0, percent_per_celsius: SupportsFloat | SupportsIndex = 2.0, errors: str = "flag") -> Any:
    """
    Conductivity at the water's own temperature from one reduced to a reference.

    Parameters
    ----------
    specific_conductance_ms_per_cm, specific_conductance : number or array, quantity
        What a meter with temperature compensation shows, mS/cm.
    temperature_celsius, temperature : number or array, quantity
        Temperature of the water (ITS-90), °C.
    reference_celsius : float
        Temperature the meter reduces to, °C.
    percent_per_celsius : float
        Compensation the meter is set to, % per °C, 0 to 5.
    errors : str
        Refused rows of arrays: ``"flag"`` for NaN and a warning with the reasons,
        ``"raise"`` for an exception.

    Returns
    -------
    number or array
        Conductivity at the temperature of the water, mS/cm.

    Raises
    ------
    HalimedaValueError
        An input is outside its limits.
    """

def content_at_saturation_umol_per_kg(water: Water, /, *, saturation_percent: ArrayLike | None = None, saturation: ArrayLike | None = None, gas: str = "oxygen", errors: str = "flag") -> Any:
    """
    Content of a gas at a percentage of the equilibrium with clean moist air.

    The inverse of `percent_saturation`. Percent saturation does not depend on
    salinity, mg/L does: a meter told the wrong salinity is put right by way of
    percent.

    Parameters
    ----------
    water : Water
        The water.
    saturation_percent, saturation : number or array, quantity
        Saturation, %.
    gas : {"oxygen", "nitrogen", "argon"}
        The gas.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Content, µmol/kg.

    Raises
    ------
    HalimedaValueError
        The water or the percentage is outside its limits.

    Source
    ------
    As `solubility_umol_per_kg`.
    """

def content_fall_umol_per_kg_per_day(*, first_umol_per_kg: ArrayLike | None = None, first: ArrayLike | None = None, second_umol_per_kg: ArrayLike | None = None, second: ArrayLike | None = None, days: ArrayLike | None = None, errors: str = "flag") -> Any:
    """
    Fall of a content per day between two readings without dosing.

    Parameters
    ----------
    first_umol_per_kg, first : number or array, quantity
        The earlier reading, µmol/kg.
    second_umol_per_kg, second : number or array, quantity
        The later reading, µmol/kg.
    days : number or array
        Time between them, d, 0.25 to 60.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Fall, µmol/kg/d.

    Raises
    ------
    HalimedaValueError
        The content rose, or a number is outside its limits.
    """

def content_umol_per_kg(water: Water, /, *, concentration_mg_per_l: ArrayLike | None = None, concentration: ArrayLike | None = None, form: str = "", errors: str = "flag") -> Any:
    """
    Content from a concentration by mass.

    What is weighed makes the difference: nitrate as NO3 and as N are 4.4 apart,
    phosphate as PO4 and as P 3.1, calcium as CaCO3 and as Ca 2.5. So it has to be said.

    Parameters
    ----------
    water : Water
        The water, for its density.
    concentration_mg_per_l, concentration : number or array, quantity
        Concentration, mg/L.
    form : str
        What is weighed: ``"nitrate_as_no3"``, ``"nitrate_as_n"``, ``"ammonia_as_n"``,
        ``"phosphate_as_po4"``, ``"calcium_as_ca"``, ``"oxygen_as_o2"`` and so on; a
        refusal names them all.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Content, µmol/kg.

    Raises
    ------
    HalimedaValueError
        There is no such form, or a number is outside its limits.

    Source
    ------
    Atomic weights of IUPAC 2021 doi:10.1515/pac-2019-0603.

    Examples
    --------
    >>> import halimeda as hm
    >>> water = hm.Water(temperature_celsius=25.0, practical_salinity=35.0)
    >>> round(hm.nutrient.content_umol_per_kg(
    ...     water, concentration_mg_per_l=5.0, form="nitrate_as_no3"), 1)
    78.8
    """

def coral_calcification_mol_per_day(*, tissue_m2: ArrayLike | None = None, tissue: ArrayLike | None = None, aragonite_saturation: ArrayLike | None = None, lit_fraction: ArrayLike | None = None, parameters: dict[str, SupportsFloat | SupportsIndex] | None = None, errors: str = "flag") -> Any:
    """
    Carbonate that stony corals lay down, in a water with the cations of seawater.

    Zero at and below saturation: the dissolution of bare skeleton is not counted. The
    rates are those of 24 to 28 °C.

    Parameters
    ----------
    tissue_m2, tissue : number or array, quantity
        Area of living tissue, m².
    aragonite_saturation : number or array
        Saturation state of aragonite.
    lit_fraction : number or array
        0 in the dark to 1 under the full lamp.
    parameters : mapping of str to float, optional
        Other values than the defaults of `parameters`.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Carbonate, mol/d; each takes two equivalents of alkalinity.

    Raises
    ------
    HalimedaValueError
        A number or a parameter is outside its limits, or there is no such parameter.

    Source
    ------
    McLaughlin et al. (2023) doi:10.5194/bg-20-1011-2023; Smith & Kinsey (1976)
    doi:10.1126/science.194.4268.937; light: Gattuso et al. (1999)
    doi:10.1093/icb/39.1.160.
    """

def coralline_calcification_mol_per_day(*, crust_m2: ArrayLike | None = None, crust: ArrayLike | None = None, aragonite_saturation: ArrayLike | None = None, lit_fraction: ArrayLike | None = None, parameters: dict[str, SupportsFloat | SupportsIndex] | None = None, errors: str = "flag") -> Any:
    """
    Carbonate that crusts of coralline algae lay down.

    As of corals, with the magnesium of calcite.

    Parameters
    ----------
    crust_m2, crust : number or array, quantity
        Area of crust, m².
    aragonite_saturation : number or array
        Saturation state of aragonite.
    lit_fraction : number or array
        0 in the dark to 1 under the full lamp.
    parameters : mapping of str to float, optional
        Other values than the defaults of `parameters`.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Carbonate, mol/d.

    Raises
    ------
    HalimedaValueError
        A number or a parameter is outside its limits, or there is no such parameter.

    Source
    ------
    Orders of magnitude from memory; `parameters` tells the source of each.
    """

def denitrification_mol_per_day(*, nitrate_umol_per_kg: ArrayLike | None = None, particulate_carbon_mol: ArrayLike | None = None, surface_m2: ArrayLike | None = None, surface: ArrayLike | None = None, temperature_celsius: ArrayLike | None = None, temperature: ArrayLike | None = None, parameters: dict[str, SupportsFloat | SupportsIndex] | None = None, errors: str = "flag") -> Any:
    """
    Denitrification inside rock and sand.

    Anoxic zones inside the rock are taken as always there. It takes its carbon from
    the particulate matter.

    Parameters
    ----------
    nitrate_umol_per_kg : number or array
        Nitrate, µmol/kg.
    particulate_carbon_mol : number or array
        Particulate organic carbon of the system, mol.
    surface_m2, surface : number or array, quantity
        Surface, m².
    temperature_celsius, temperature : number or array, quantity
        Temperature, °C.
    parameters : mapping of str to float, optional
        Other values than the defaults, by name.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Nitrogen, mol/d.

    Raises
    ------
    HalimedaValueError
        A number or a parameter is outside its limits, or there is no such parameter.

    Source
    ------
    Orders of magnitude from memory; `parameters` tells the source of each.
    """

def diffusivity_m2_per_s(water: Water, /, *, gas: str = "oxygen", errors: str = "flag") -> Any:
    """
    Molecular diffusivity of a gas in the water, known to about 5 %.

    Parameters
    ----------
    water : Water
        The water.
    gas : {"oxygen", "nitrogen", "argon", "carbon_dioxide"}
        The gas.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Diffusivity, m²/s.

    Raises
    ------
    HalimedaValueError
        The water is outside the published range, or there is no such gas.

    Source
    ------
    Viscosity of Sharqawy et al. (2010) doi:10.5004/dwt.2010.1079 over the density
    of EOS-80 and the Schmidt number of Wanninkhof (2014).
    """

def display_photosynthesis_mol_per_day(*, living_m2: ArrayLike | None = None, living: ArrayLike | None = None, lit_fraction: ArrayLike | None = None, inorganic_carbon_umol_per_kg: ArrayLike | None = None, parameters: dict[str, SupportsFloat | SupportsIndex] | None = None, errors: str = "flag") -> Any:
    """
    Gross photosynthesis of corals and of the algae on rock and glass.

    Parameters
    ----------
    living_m2, living : number or array, quantity
        Living surface, m².
    lit_fraction : number or array
        Share of the surface that is lit, 0 to 1.
    inorganic_carbon_umol_per_kg : number or array
        Dissolved inorganic carbon, µmol/kg.
    parameters : mapping of str to float, optional
        Other values than the defaults of `parameters`.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Carbon, mol/d.

    Raises
    ------
    HalimedaValueError
        A number or a parameter is outside its limits, or there is no such parameter.

    Source
    ------
    Chisholm (2003) doi:10.4319/lo.2003.48.4.1376; the rest from memory.
    """

def display_respiration_mol_per_day(*, living_m2: ArrayLike | None = None, living: ArrayLike | None = None, oxygen_umol_per_kg: ArrayLike | None = None, temperature_celsius: ArrayLike | None = None, temperature: ArrayLike | None = None, parameters: dict[str, SupportsFloat | SupportsIndex] | None = None, errors: str = "flag") -> Any:
    """
    Respiration of corals and of the algae on rock and glass.

    Parameters
    ----------
    living_m2, living : number or array, quantity
        Living surface, m².
    oxygen_umol_per_kg : number or array
        Dissolved oxygen, µmol/kg.
    temperature_celsius, temperature : number or array, quantity
        Temperature, °C.
    parameters : mapping of str to float, optional
        Other values than the defaults of `parameters`.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Carbon, mol/d.

    Raises
    ------
    HalimedaValueError
        A number or a parameter is outside its limits, or there is no such parameter.

    Source
    ------
    Gattuso et al. (1995) Mar. Ecol. Prog. Ser. 129, 307-312; Chisholm (2003)
    doi:10.4319/lo.2003.48.4.1376.
    """

def dissolved_inorganic_nitrogen(*, nitrate: ContentEstimate, nitrite: ContentEstimate, ammonia: ContentEstimate) -> ContentEstimate:
    """
    Sum nitrate, nitrite and total ammonia.

    A form that was not measured still counts: give it as a reading below what it may
    plausibly be.

    Parameters
    ----------
    nitrate, nitrite, ammonia : ContentEstimate
        The three, their uncertainties independent.

    Returns
    -------
    ContentEstimate
        Dissolved inorganic nitrogen.

    Raises
    ------
    HalimedaValueError
        The sum is outside the limits of a content.

    Examples
    --------
    >>> import halimeda as hm
    >>> of = hm.nutrient.ContentEstimate
    >>> nitrogen = hm.nutrient.dissolved_inorganic_nitrogen(
    ...     nitrate=of(80.0, 8.0), nitrite=of(0.5, 0.3), ammonia=of(1.0, 0.6))
    >>> round(nitrogen.content_umol_per_kg, 9)
    81.5
    """

def dosed_salts() -> list[tuple[str, str, float]]:
    """
    Field of the dosing, salt and grams per mole of what is dosed as salts.
    """

def evaporation_kg_per_day(water: Water, /, *, open_m2: ArrayLike | None = None, open: ArrayLike | None = None, air_celsius: ArrayLike | None = None, relative_humidity: ArrayLike | None = None, parameters: dict[str, SupportsFloat | SupportsIndex] | None = None, errors: str = "flag") -> Any:
    """
    Water that evaporates from an open surface.

    Nothing condenses where the air is moister than the water. A fan raises it.

    Parameters
    ----------
    water : Water
        The water.
    open_m2, open : number or array, quantity
        The open surface, m².
    air_celsius : number or array
        Temperature of the room's air, °C.
    relative_humidity : number or array
        Relative humidity of the room's air, 0 to 1.
    parameters : mapping of str to float, optional
        Other values than the defaults, by name.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Water, kg/d.

    Raises
    ------
    HalimedaValueError
        A number or a parameter is outside its limits, or there is no such parameter.

    Source
    ------
    Dalton's law; Smith, Löf & Jones (1998) ASHRAE Trans. 104(1A); vapour pressure of
    Weiss & Price (1980) doi:10.1016/0304-4203(80)90024-9.
    """

def example_tanks() -> list[tuple[str, str]]:
    """
    Name and text of every example. They are invented.
    """

def exchange(paths: SupportsGetItem[int, ExchangePath], water: Water, /, *, content_umol_per_kg: SupportsFloat | SupportsIndex, gas: str = "oxygen") -> Exchange:
    """
    Exchange of a gas between water and air through paths.

    Parameters
    ----------
    paths : list of ExchangePath
        The paths, each with its air.
    water : Water
        The water.
    content_umol_per_kg : float
        Content of the gas, µmol/kg; for CO2 that of dissolved CO2.
    gas : {"oxygen", "nitrogen", "argon", "carbon_dioxide"}
        The gas.

    Returns
    -------
    Exchange
        Flux, equilibrium and clearance.

    Raises
    ------
    HalimedaValueError
        No path transfers anything, or the water is outside a published range.

    Source
    ------
    Schmidt numbers: Wanninkhof (2014) doi:10.4319/lom.2014.12.351; solubilities as
    `solubility_umol_per_kg`.

    Examples
    --------
    >>> import halimeda as hm
    >>> water = hm.Water(temperature_celsius=25.0, practical_salinity=35.0)
    >>> paths = [
    ...     hm.gas.ExchangePath("open_surface", co2_ppm=900.0,
    ...                         transfer_velocity_cm_per_h=3.0, area_m2=0.6),
    ...     hm.gas.ExchangePath("foam_fractionator", co2_ppm=425.0,
    ...                         rate_per_hour=0.5, volume_l=300.0)]
    >>> night = hm.gas.exchange(paths, water, content_umol_per_kg=170.0)
    >>> round(night.rate_per_hour(volume_l=300.0), 2)
    0.56
    >>> round(night.flux_mmol_per_day)
    152
    """

def failure_words(failure: str) -> str:
    """
    What went wrong, in words.
    """

def feed(*, grams: SupportsFloat | SupportsIndex, kind: str = "pellet", parameters: dict[str, SupportsFloat | SupportsIndex] | None = None) -> OrganicMatter:
    """
    Find the carbon, nitrogen and phosphorus in a feed.

    Parameters
    ----------
    grams : float
        The feed as it is weighed, g; frozen feed thawed and drained.
    kind : {"pellet", "frozen", "dried_macroalgae"}
        What is fed.
    parameters : mapping of str to float, optional
        A declared composition of the feed in place of the kind's, by name:
        ``water_fraction``, ``protein_fraction_of_dry``, ``phosphorus_fraction_of_dry``,
        ``carbon_fraction_of_dry``; what is not named is of a pellet.

    Returns
    -------
    OrganicMatter
        Moles in the feed.

    Raises
    ------
    HalimedaValueError
        There is no such kind or part, or the parts contradict each other.

    Source
    ------
    NRC (2011) Nutrient Requirements of Fish and Shrimp, from memory; `parameters` tells the
    source of each part.

    Examples
    --------
    >>> import halimeda as hm
    >>> round(1e3 * hm.process.feed(grams=1.0).nitrogen_mol, 2)
    5.04
    """

def film_flow(water: Water, /, *, flow_l_per_h: SupportsFloat | SupportsIndex, width_m: SupportsFloat | SupportsIndex) -> FilmFlow:
    """
    Thickness and velocity of a film of water running down a wall or a screen.

    Parameters
    ----------
    water : Water
        The water.
    flow_l_per_h : float
        The flow, L/h.
    width_m : float
        The wetted width, m; both faces of a screen count.

    Returns
    -------
    FilmFlow
        Thickness, surface velocity and Reynolds number.

    Raises
    ------
    HalimedaValueError
        The film would be turbulent (Reynolds number above 1500): measure its velocity.

    Source
    ------
    Nusselt (1916); Bird, Stewart & Lightfoot (2002) Transport Phenomena, 2nd ed.,
    section 2.2.

    Examples
    --------
    >>> import halimeda as hm
    >>> water = hm.Water(temperature_celsius=25.0, practical_salinity=35.0)
    >>> film = hm.gas.film_flow(water, flow_l_per_h=250.0, width_m=0.5)
    >>> round(1e3 * film.thickness_m, 2)
    0.34
    """

def film_velocity_m_per_s(*, flow_l_per_h_per_cm: ArrayLike | None = None, flow: ArrayLike | None = None, parameters: dict[str, SupportsFloat | SupportsIndex] | None = None, errors: str = "flag") -> Any:
    """
    Mean velocity of the water that runs down a screen.

    Parameters
    ----------
    flow_l_per_h_per_cm, flow : number or array, quantity
        Flow per width of screen, L/h/cm.
    parameters : mapping of str to float, optional
        Other values than the defaults of ``halimeda.process.parameters("screen")``.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Velocity, m/s.

    Raises
    ------
    HalimedaValueError
        A number or a parameter is outside its limits, or there is no such parameter.

    Source
    ------
    Weight against friction of the film; the friction factor is weak, from memory.
    """

def fit_log(description: Description, log: KeeperLog, ranges: SupportsGetItem[int, tuple[SupportsFloat | SupportsIndex, SupportsFloat | SupportsIndex, SupportsFloat | SupportsIndex]], options: str, progress: Any | None) -> tuple[str, Members, Members, list[tuple[float, float, float]]]:
    """
    Fits a tank to its log: what is known, as JSON; the members; the most likely of all;
    and the ranges that are left.
    """

def follow_ensemble(description: Description, how: str, ranges: SupportsGetItem[int, tuple[SupportsFloat | SupportsIndex, SupportsFloat | SupportsIndex, SupportsFloat | SupportsIndex]], fitted: Members | None, progress: Any | None) -> dict[str, Any]:
    """
    Follows a tank under draws from ranges, or the tanks that a log leaves possible.
    """

def forecast_skill(description: Description, log: KeeperLog, ranges: SupportsGetItem[int, tuple[SupportsFloat | SupportsIndex, SupportsFloat | SupportsIndex, SupportsFloat | SupportsIndex]], origins: SupportsGetItem[int, SupportsFloat | SupportsIndex], options: str, progress: Any | None) -> str:
    """
    Scores forecasts from earlier days, each from a fit to the log up to it, against the
    readings that came after.
    """

def invented_log(description: Description, days: SupportsFloat | SupportsIndex, seed: SupportsIndex, incidents: bool) -> KeeperLog:
    """
    A log that such a keeper would have written of the tank, by chance: for tests and
    demonstrations.
    """

def iron_oxide_uptake_mol_per_day(*, phosphate_umol_per_kg: ArrayLike | None = None, bound_phosphorus_mol: ArrayLike | None = None, media_g: ArrayLike | None = None, media: ArrayLike | None = None, parameters: dict[str, SupportsFloat | SupportsIndex] | None = None, errors: str = "flag") -> Any:
    """
    Phosphate that granular iron oxide takes up.

    Negative where loaded media gives phosphate back to cleaner water.

    Parameters
    ----------
    phosphate_umol_per_kg : number or array
        Phosphate, µmol/kg.
    bound_phosphorus_mol : number or array
        Phosphorus that the media already holds, mol.
    media_g, media : number or array, quantity
        The media, g.
    parameters : mapping of str to float, optional
        Other values than the defaults of `parameters`.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Phosphorus, mol/d.

    Raises
    ------
    HalimedaValueError
        A number or a parameter is outside its limits, or there is no such parameter.

    Source
    ------
    Chitrakar et al. (2006) J. Colloid Interface Sci. 298, 602-608; Golterman (1995)
    Hydrobiologia 315, 59-68.
    """

def irradiance_umol_per_m2_per_s(*, power_w: ArrayLike | None = None, power: ArrayLike | None = None, lit_area_m2: ArrayLike | None = None, lit_area: ArrayLike | None = None, parameters: dict[str, SupportsFloat | SupportsIndex] | None = None, errors: str = "flag") -> Any:
    """
    Irradiance of a new lamp on each lit face of a screen.

    Mains light near water: use what is rated for it, on a residual-current device,
    installed by local rules.

    Parameters
    ----------
    power_w, power : number or array, quantity
        Electrical power over all faces together, W.
    lit_area_m2, lit_area : number or array, quantity
        Lit area of all faces together, m².
    parameters : mapping of str to float, optional
        Other values than the defaults of ``halimeda.process.parameters("lamp")``.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Photons of 400 to 700 nm, µmol/m²/s.

    Raises
    ------
    HalimedaValueError
        A number or a parameter is outside its limits, or there is no such parameter.

    Source
    ------
    Kusuma et al. (2020) doi:10.1038/s41438-020-0283-7; Nelson & Bugbee (2014)
    doi:10.1371/journal.pone.0099010.

    Examples
    --------
    >>> import halimeda as hm
    >>> round(hm.turf.irradiance_umol_per_m2_per_s(power_w=50.0, lit_area_m2=0.25))
    297
    """

def lamp_remaining(*, burning_hours: ArrayLike | None = None, parameters: dict[str, SupportsFloat | SupportsIndex] | None = None, errors: str = "flag") -> Any:
    """
    Share of a new lamp's light that is left after burning.

    Parameters
    ----------
    burning_hours : number or array
        Hours it has burnt, h.
    parameters : mapping of str to float, optional
        Other values than the defaults of ``halimeda.process.parameters("lamp")``.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Share, 0 to 1.

    Raises
    ------
    HalimedaValueError
        A number or a parameter is outside its limits, or there is no such parameter.

    Source
    ------
    Usual L70 rating of LED fixtures.
    """

def lever_values(description: Description) -> list[float | None]:
    """
    Where every lever stands; None where the tank lacks it.
    """

def levers() -> list[tuple[str, str, str]]:
    """
    Name, words and unit of every lever.
    """

def limewater_mol_per_l(*, temperature_celsius: ArrayLike | None = None, temperature: ArrayLike | None = None, errors: str = "flag") -> Any:
    """
    Calcium hydroxide in saturated limewater, known to 6 %.

    Limewater is caustic. Its strength falls as it warms: saturated in a cold store it
    turns cloudy in a warm room.

    Parameters
    ----------
    temperature_celsius, temperature : number or array, quantity
        Temperature of the limewater, 0 to 40 °C.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Calcium hydroxide, mol/L.

    Raises
    ------
    HalimedaValueError
        The temperature is outside its limits.

    Source
    ------
    Bates, Bower & Smith (1956) doi:10.6028/jres.056.040; its change with temperature
    from handbook tables.

    Examples
    --------
    >>> import halimeda as hm
    >>> round(hm.dosing.limewater_mol_per_l(temperature_celsius=25.0), 4)
    0.0203
    """

def livestock(gut: OrganicMatter, /, *, oxygen_umol_per_kg: SupportsFloat | SupportsIndex, parameters: dict[str, SupportsFloat | SupportsIndex] | None = None) -> LivestockRates:
    """
    Find what fed animals excrete, respire and keep.

    First order in what is in the gut; over time all that was eaten leaves it in these
    shares.

    Parameters
    ----------
    gut : OrganicMatter
        Feed in the gut, as of `feed`.
    oxygen_umol_per_kg : float
        Dissolved oxygen, µmol/kg.
    parameters : mapping of str to float, optional
        Other values than the defaults of `parameters`.

    Returns
    -------
    LivestockRates
        Rates per day.

    Raises
    ------
    HalimedaValueError
        A number or a parameter is outside its limits, or there is no such parameter.

    Source
    ------
    van Rijn (2013) Aquac. Eng. 53, 49-56; Summerfelt & Penne (2007) Int. J. Recirc. Aquac.
    8, 43-64.

    Examples
    --------
    >>> import halimeda as hm
    >>> rates = hm.process.livestock(hm.process.feed(grams=5.0), oxygen_umol_per_kg=200.0)
    >>> rates.excreted_nitrogen_mol_per_day > rates.faeces.nitrogen_mol
    True
    """

def log_rates(question: str, description: Description, log: KeeperLog, measured: str, from_day: SupportsFloat | SupportsIndex, to_day: SupportsFloat | SupportsIndex) -> str:
    """
    Net rates between tests, or over stretches of days.
    """

def measured() -> list[tuple[str, str, str]]:
    """
    Name, words and unit of everything that a test or a probe measures.
    """

def mineralisation_mol_per_day(*, matter_mol: ArrayLike | None = None, oxygen_umol_per_kg: ArrayLike | None = None, temperature_celsius: ArrayLike | None = None, temperature: ArrayLike | None = None, parameters: dict[str, SupportsFloat | SupportsIndex] | None = None, errors: str = "flag") -> Any:
    """
    Mineralisation of detritus.

    Parameters
    ----------
    matter_mol : number or array
        One element (C, N or P) of the particulate organic matter, mol.
    oxygen_umol_per_kg : number or array
        Dissolved oxygen, µmol/kg.
    temperature_celsius, temperature : number or array, quantity
        Temperature, °C.
    parameters : mapping of str to float, optional
        Other values than the defaults, by name.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Of the element, mol/d.

    Raises
    ------
    HalimedaValueError
        A number or a parameter is outside its limits, or there is no such parameter.

    Source
    ------
    Orders of magnitude from memory; `parameters` tells the source of each.
    """

def nernst_slope_mv_per_ph(*, temperature_celsius: ArrayLike | None = None, temperature: ArrayLike | None = None, errors: str = "flag") -> Any:
    """
    Millivolts per pH of an ideal probe.

    Parameters
    ----------
    temperature_celsius, temperature : number or array, quantity
        Temperature of the probe, °C.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Slope, mV per pH.

    Raises
    ------
    HalimedaValueError
        The temperature is outside its limits.

    Source
    ------
    R T ln 10 / F with the constants of CODATA 2018.

    Examples
    --------
    >>> import halimeda as hm
    >>> round(hm.probe.nernst_slope_mv_per_ph(temperature_celsius=25.0), 3)
    59.159
    """

def nitrification_mol_per_day(*, ammonia_umol_per_kg: ArrayLike | None = None, oxygen_umol_per_kg: ArrayLike | None = None, surface_m2: ArrayLike | None = None, surface: ArrayLike | None = None, temperature_celsius: ArrayLike | None = None, temperature: ArrayLike | None = None, parameters: dict[str, SupportsFloat | SupportsIndex] | None = None, errors: str = "flag") -> Any:
    """
    Nitrification on the surfaces of rock, sand and filter.

    What a mole of it does to the water is in `halimeda.nutrient.stoichiometry`. The
    defaults are typical values, no measurement of the tank at hand; `parameters` has
    their ranges.

    Parameters
    ----------
    ammonia_umol_per_kg : number or array
        Total ammonia, µmol/kg.
    oxygen_umol_per_kg : number or array
        Dissolved oxygen, µmol/kg.
    surface_m2, surface : number or array, quantity
        Surface, m².
    temperature_celsius, temperature : number or array, quantity
        Temperature, °C.
    parameters : mapping of str to float, optional
        Other values than the defaults, by name.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Nitrogen, mol/d.

    Raises
    ------
    HalimedaValueError
        A number or a parameter is outside its limits, or there is no such parameter.

    Source
    ------
    Orders of magnitude from memory; `parameters` tells the source of each.

    Examples
    --------
    >>> import halimeda as hm
    >>> round(1e3 * hm.process.nitrification_mol_per_day(
    ...     ammonia_umol_per_kg=2.0, oxygen_umol_per_kg=200.0, surface_m2=3.0,
    ...     temperature_celsius=25.0), 2)
    2.09
    """

def outcomes() -> list[tuple[str, str, str]]:
    """
    Name, words and unit of every number of an outcome.
    """

def parameter_infos() -> list[tuple[str, str, float, float, float, str]]:
    """
    Name, unit, default, low, high and source of every parameter.
    """

def parameters(model: str, /) -> list[Parameter]:
    """
    Tell what the parameters of a model are, with ranges and sources.

    Parameters
    ----------
    model : str
        ``"nitrification"``, ``"denitrification"``, ``"mineralisation"``,
        ``"coral_calcification"``, ``"coralline_calcification"``, ``"display"``,
        ``"iron_oxide"``, ``"livestock"``, ``"evaporation"``, ``"top_off"``,
        ``"feed_pellet"``, ``"feed_frozen"``, ``"feed_dried_macroalgae"``, ``"turf"``,
        ``"lamp"``, ``"screen"`` or ``"tissue_metals"``.

    Returns
    -------
    list of Parameter
        Each with its default, range, unit and source.

    Raises
    ------
    HalimedaValueError
        There is no such model.

    Examples
    --------
    >>> import halimeda as hm
    >>> [p.name for p in hm.process.parameters("evaporation")]
    ['transfer_kg_per_m2_per_d_per_kpa']
    """

def partial_pressure_atm(water: Water, /, *, content_umol_per_kg: ArrayLike | None = None, content: ArrayLike | None = None, gas: str = "oxygen", errors: str = "flag") -> Any:
    """
    Partial pressure of a dissolved gas.

    Parameters
    ----------
    water : Water
        The water.
    content_umol_per_kg, content : number or array, quantity
        Content of the gas, µmol/kg.
    gas : {"oxygen", "nitrogen", "argon"}
        The gas.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Partial pressure, atm.

    Raises
    ------
    HalimedaValueError
        The water or the content is outside its limits.

    Source
    ------
    As `solubility_umol_per_kg`; the share of the gas in dry air of Glueckauf (1951).
    """

def percent_saturation(water: Water, /, *, content_umol_per_kg: ArrayLike | None = None, content: ArrayLike | None = None, gas: str = "oxygen", errors: str = "flag") -> Any:
    """
    Content as a percentage of the equilibrium with clean moist air.

    At the water's own air pressure, which is the local one and not that of
    weather reports, reduced to sea level.

    Parameters
    ----------
    water : Water
        The water.
    content_umol_per_kg, content : number or array, quantity
        Content of the gas, µmol/kg; mg/L become it by
        `halimeda.nutrient.content_umol_per_kg`.
    gas : {"oxygen", "nitrogen", "argon"}
        The gas.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Saturation, %.

    Raises
    ------
    HalimedaValueError
        The water or the content is outside its limits.

    Source
    ------
    As `solubility_umol_per_kg`.
    """

def percent_saturation_at_depth(water: Water, /, *, content_umol_per_kg: ArrayLike | None = None, content: ArrayLike | None = None, gas: str = "oxygen", errors: str = "flag") -> Any:
    """
    Content as a percentage of the equilibrium with a bubble at the water's depth.

    The gas leaves solution only above 100 %.

    Parameters
    ----------
    water : Water
        The water, with its ``water_pressure_dbar``.
    content_umol_per_kg, content : number or array, quantity
        Content of the gas, µmol/kg.
    gas : {"oxygen", "nitrogen", "argon"}
        The gas.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Saturation, %.

    Raises
    ------
    HalimedaValueError
        The water or the content is outside its limits.

    Source
    ------
    As `solubility_umol_per_kg`.
    """

def plan_defaults() -> str:
    """
    Free levers and limits of a plan where nothing else is said, as JSON.
    """

@overload
def practical_salinity_from_conductivity(*, conductivity_ms_per_cm: float | None = None, conductivity: str | None = None, temperature_celsius: float | None = None, temperature: str | None = None, water_pressure_dbar: float | None = None, water_pressure: str | None = None, extrapolate: bool = False, errors: str = "flag") -> float: ...
@overload
def practical_salinity_from_conductivity(*, conductivity_ms_per_cm: ArrayLike | None = None, conductivity: ArrayLike | None = None, temperature_celsius: ArrayLike | None = None, temperature: ArrayLike | None = None, water_pressure_dbar: ArrayLike | None = None, water_pressure: ArrayLike | None = None, extrapolate: bool = False, errors: str = "flag") -> Any:
    """
    Practical salinity from a conductivity at the water's own temperature.

    Parameters
    ----------
    conductivity_ms_per_cm, conductivity : number or array, quantity
        Conductivity, not reduced to a reference temperature, mS/cm.
    temperature_celsius, temperature : number or array, quantity
        Temperature of the water (ITS-90), °C.
    water_pressure_dbar, water_pressure : number or array, quantity
        Pressure of the water column above, dbar.
    extrapolate : bool
        Go on outside the published range.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Practical salinity.

    Raises
    ------
    HalimedaValueError
        An input is outside its limits or the published range.

    Source
    ------
    PSS-78: UNESCO (1981) Tech. Pap. Mar. Sci. 37.

    Examples
    --------
    >>> import halimeda as hm
    >>> round(hm.practical_salinity_from_conductivity(
    ...     conductivity_ms_per_cm=53.1, temperature_celsius=25.0), 2)
    35.02
    """

@overload
def practical_salinity_from_density(*, density_kg_per_m3: float | None = None, density: str | None = None, temperature_celsius: float | None = None, temperature: str | None = None, extrapolate: bool = False, errors: str = "flag") -> float: ...
@overload
def practical_salinity_from_density(*, density_kg_per_m3: ArrayLike | None = None, density: ArrayLike | None = None, temperature_celsius: ArrayLike | None = None, temperature: ArrayLike | None = None, extrapolate: bool = False, errors: str = "flag") -> Any:
    """
    Practical salinity from a density at one atmosphere.

    Parameters
    ----------
    density_kg_per_m3, density : number or array, quantity
        Density at `temperature_celsius`, kg/m³.
    temperature_celsius, temperature : number or array, quantity
        Temperature of the water (ITS-90), °C.
    extrapolate : bool
        Go on outside the published range.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Practical salinity.

    Raises
    ------
    HalimedaValueError
        An input is outside its limits or the published range.

    Source
    ------
    EOS-80: Millero & Poisson (1981) doi:10.1016/0198-0149(81)90122-9, inverted.
    """

@overload
def practical_salinity_from_hydrometer(*, hydrometer: str | None = None, temperature_celsius: float | None = None, temperature: str | None = None, sample_celsius: SupportsFloat | SupportsIndex = 25.0, pure_water_celsius: SupportsFloat | SupportsIndex = 25.0, extrapolate: bool = False, errors: str = "flag") -> float: ...
@overload
def practical_salinity_from_hydrometer(*, hydrometer: ArrayLike | None = None, temperature_celsius: ArrayLike | None = None, temperature: ArrayLike | None = None, sample_celsius: SupportsFloat | SupportsIndex = 25.0, pure_water_celsius: SupportsFloat | SupportsIndex = 25.0, extrapolate: bool = False, errors: str = "flag") -> Any:
    """
    Practical salinity from what a glass hydrometer shows, floating in the water.

    Parameters
    ----------
    hydrometer : number or array
        The reading, a specific gravity.
    temperature_celsius, temperature : number or array, quantity
        Temperature of the water (ITS-90), °C.
    sample_celsius, pure_water_celsius : float
        The reference temperatures printed on the hydrometer, °C: 25 and 25 unless given.
    extrapolate : bool
        Go on outside the published range.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Practical salinity.

    Raises
    ------
    HalimedaValueError
        An input is outside its limits or the published range.

    Source
    ------
    EOS-80: Millero & Poisson (1981) doi:10.1016/0198-0149(81)90122-9, inverted, with
    the expansion of the glass.
    """

@overload
def practical_salinity_from_refractive_index(*, refractive_index: float | None = None, temperature_celsius: float | None = None, temperature: str | None = None, wavelength_nm: float | None = None, wavelength: str | None = None, extrapolate: bool = False, errors: str = "flag") -> float: ...
@overload
def practical_salinity_from_refractive_index(*, refractive_index: ArrayLike | None = None, temperature_celsius: ArrayLike | None = None, temperature: ArrayLike | None = None, wavelength_nm: ArrayLike | None = None, wavelength: ArrayLike | None = None, extrapolate: bool = False, errors: str = "flag") -> Any:
    """
    Practical salinity from a refractive index relative to air.

    Parameters
    ----------
    refractive_index : number or array
        Relative to air, at one atmosphere.
    temperature_celsius, temperature : number or array, quantity
        Temperature of the sample (ITS-90), °C.
    wavelength_nm, wavelength : number or array, quantity
        Wavelength of the light, nm; the sodium D line unless given.
    extrapolate : bool
        Go on outside the published range.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Practical salinity.

    Raises
    ------
    HalimedaValueError
        An input is outside its limits or the published range.

    Source
    ------
    Millard & Seaver (1990) doi:10.1016/0198-0149(90)90086-B, inverted.
    """

def practical_salinity_from_refractometer(*, refractometer: ArrayLike | None = None, scale: str = "seawater", adjusted_with: str = "pure_water", fluid: SupportsFloat | SupportsIndex | None = None, adjusted_to: SupportsFloat | SupportsIndex = 0.0, fluid_celsius: SupportsFloat | SupportsIndex | None = None, sample_celsius: SupportsFloat | SupportsIndex | None = None, extrapolate: bool = False, errors: str = "flag") -> Any:
    """
    Practical salinity from what a hand refractometer shows.

    Parameters
    ----------
    refractometer : number or array
        The reading, in the unit of its scale.
    scale : str
        What the scale counts: ``"seawater"`` (practical salinity),
        ``"sodium_chloride"`` (g per kg of brine) or ``"brix"`` (g of sucrose per
        100 g).
    adjusted_with : str
        The fluid it was adjusted with: ``"pure_water"``, ``"seawater"`` or
        ``"sodium_chloride"``.
    fluid : float, optional
        What that fluid holds: practical salinity of the seawater standard, or g
        of sodium chloride per kg of solution.
    adjusted_to : float
        What it was made to show in that fluid.
    fluid_celsius, sample_celsius : float, optional
        Temperatures of the fluid when it was adjusted and of the sample when it is
        read, °C; both for an instrument that does not compensate.
    extrapolate : bool
        Go on outside the published range.
    errors : str
        Refused rows of arrays: ``"flag"`` for NaN and a warning with the reasons,
        ``"raise"`` for an exception.

    Returns
    -------
    number or array
        Practical salinity.

    Raises
    ------
    HalimedaValueError
        A choice is unknown or incomplete, or an input is outside its limits.

    Source
    ------
    Millard & Seaver (1990) doi:10.1016/0198-0149(90)90086-B; sodium chloride and
    sucrose: CRC Handbook of Chemistry and Physics (2021), ICUMSA (1974).

    Examples
    --------
    >>> import halimeda as hm
    >>> round(hm.practical_salinity_from_refractometer(
    ...     refractometer=35.0, scale="sodium_chloride"), 1)
    33.6
    """

@overload
def practical_salinity_from_specific_gravity(*, specific_gravity: str | None = None, sample_celsius: SupportsFloat | SupportsIndex = 25.0, pure_water_celsius: SupportsFloat | SupportsIndex = 25.0, extrapolate: bool = False, errors: str = "flag") -> float: ...
@overload
def practical_salinity_from_specific_gravity(*, specific_gravity: ArrayLike | None = None, sample_celsius: SupportsFloat | SupportsIndex = 25.0, pure_water_celsius: SupportsFloat | SupportsIndex = 25.0, extrapolate: bool = False, errors: str = "flag") -> Any:
    """
    Practical salinity from a specific gravity.

    Parameters
    ----------
    specific_gravity : number or array
        Density of the sample at `sample_celsius` over that of pure water at
        `pure_water_celsius`.
    sample_celsius, pure_water_celsius : float
        The reference temperatures of the scale, °C: 25 and 25 unless given.
    extrapolate : bool
        Go on outside the published range.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Practical salinity.

    Raises
    ------
    HalimedaValueError
        An input is outside its limits or the published range.

    Source
    ------
    EOS-80: Millero & Poisson (1981) doi:10.1016/0198-0149(81)90122-9, inverted.

    Examples
    --------
    >>> import halimeda as hm
    >>> round(hm.practical_salinity_from_specific_gravity(specific_gravity=1.0264), 2)
    35.04
    """

def read_log(file: bytes, description: Description, all_probes: bool) -> tuple[KeeperLog, str, str]: ...

def read_log_columns(kind: str, times: Any, columns: SupportsGetItem[int, tuple[str, Any]], description: Description, all_probes: bool) -> tuple[KeeperLog, str, str]:
    """
    Reads columns: times as nanoseconds (`"utc"` or `"clock"`) or days (`"days"`), and
    by heading numbers or texts.
    """

def reaeration(*, hours: ArrayLike | None = None, content_umol_per_kg: ArrayLike | None = None, content: ArrayLike | None = None, gas: str = "oxygen", equilibrium_umol_per_kg: SupportsFloat | SupportsIndex | None = None, initial_umol_per_kg: SupportsFloat | SupportsIndex | None = None) -> ReaerationFit:
    """
    Fit kLa to a record of readings while the water returns to equilibrium.

    C(t) = C* - (C* - C0) exp(-kLa t), by least squares: all three fitted, or with C* or C0
    given. Bring the water away from equilibrium with no animals in it, start the aeration,
    and read until little changes; leave off the first readings of a slow probe. In a tank
    that breathes C* is not the solubility.

    Parameters
    ----------
    hours : array of number
        Times since the start, rising, h; six or more.
    content_umol_per_kg, content : array of number, quantity
        Content of the gas at those times, µmol/kg.
    gas : {"oxygen", "nitrogen", "argon", "carbon_dioxide"}
        The gas.
    equilibrium_umol_per_kg : float, optional
        C*, µmol/kg, where it is known.
    initial_umol_per_kg : float, optional
        C0 at time zero, µmol/kg, where it is known.

    Returns
    -------
    ReaerationFit
        kLa with its interval, and what else was fitted.

    Raises
    ------
    HalimedaValueError
        Fewer than six readings, times that do not rise, or a record that does not bound
        kLa: cut off too early, over by the second reading, or without a change beyond
        its scatter.

    Source
    ------
    ASCE/EWRI 2-06, Measurement of oxygen transfer in clean water.

    Examples
    --------
    >>> import halimeda as hm
    >>> fit = hm.gas.reaeration(
    ...     hours=[0.0, 0.25, 0.5, 0.75, 1.0, 1.5, 2.0, 3.0],
    ...     content_umol_per_kg=[61.0, 97.0, 123.0, 145.0, 159.0, 180.0, 190.0, 201.0])
    >>> fit.rate_low_per_hour < 1.13 < fit.rate_high_per_hour
    True
    """

def reference_buffer_ph_nbs(*, temperature_celsius: ArrayLike | None = None, temperature: ArrayLike | None = None, buffer: str = "phosphate", errors: str = "flag") -> Any:
    """
    NBS pH of a primary standard buffer.

    The technical buffers "4", "7" and "10" are other recipes: take their pH from the
    label, at the temperature of the buffer.

    Parameters
    ----------
    temperature_celsius, temperature : number or array, quantity
        Temperature of the buffer, 0 to 50 °C.
    buffer : {"phthalate", "phosphate", "physiological_phosphate", "borax", "carbonate"}
        The buffer.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        The pH on the NBS scale.

    Raises
    ------
    HalimedaValueError
        The temperature is outside the table, or there is no such buffer.

    Source
    ------
    Buck et al. (2002) doi:10.1351/pac200274112169, table 2.
    """

def relations() -> list[Relation]:
    """
    Give every published relation of the chemistry.

    Returns
    -------
    list of Relation
        In the order of the register.

    Examples
    --------
    >>> import halimeda as hm
    >>> hm.relations()[0].name
    'K0 (Weiss 1974)'
    """

def schmidt_number(water: Water, /, *, gas: str = "oxygen", errors: str = "flag") -> Any:
    """
    Schmidt number of a gas: kinematic viscosity over diffusivity.

    Parameters
    ----------
    water : Water
        The water.
    gas : {"oxygen", "nitrogen", "argon", "carbon_dioxide"}
        The gas.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Schmidt number, dimensionless.

    Raises
    ------
    HalimedaValueError
        The water is outside the published range, or there is no such gas.

    Source
    ------
    Wanninkhof (2014) doi:10.4319/lom.2014.12.351, table 1, at salinity 35.

    Examples
    --------
    >>> import halimeda as hm
    >>> water = hm.Water(temperature_celsius=20.0, practical_salinity=35.0)
    >>> round(hm.gas.schmidt_number(water, gas="carbon_dioxide"))
    668
    """

def seawater_buffer_ph_total(*, temperature_celsius: ArrayLike | None = None, temperature: ArrayLike | None = None, practical_salinity: ArrayLike | None = None, buffer: str = "tris", errors: str = "flag") -> Any:
    """
    Total pH of a buffer made up in artificial seawater.

    2-aminopyridine is toxic: gloves and eye protection, never in the tank, safety data
    sheet first.

    Parameters
    ----------
    temperature_celsius, temperature : number or array, quantity
        Temperature of the buffer, °C.
    practical_salinity : number or array
        Practical salinity it was made up to.
    buffer : {"tris", "aminopyridine"}
        The buffer, 0.04 mol per kg of water of acid and base.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        The pH on the total scale.

    Raises
    ------
    HalimedaValueError
        Outside the published range, or there is no such buffer.

    Source
    ------
    DelValls & Dickson (1998) doi:10.1016/S0967-0637(98)00019-3, eq. 18; Dickson (1993);
    both as in Dickson, Sabine & Christian (2007) SOP 6a.

    Examples
    --------
    >>> import halimeda as hm
    >>> round(hm.probe.seawater_buffer_ph_total(
    ...     temperature_celsius=25.0, practical_salinity=35.0), 3)
    8.094
    """

def solubility_umol_per_kg(water: Water, /, *, gas: str = "oxygen", errors: str = "flag") -> Any:
    """
    Content of a gas in equilibrium with clean moist air.

    At the water's own air pressure: at 1500 m a tank holds a sixth less.

    Parameters
    ----------
    water : Water
        The water.
    gas : {"oxygen", "nitrogen", "argon"}
        The gas.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Content, µmol/kg.

    Raises
    ------
    HalimedaValueError
        The water is outside the published range, or there is no such gas.

    Source
    ------
    Oxygen: Garcia & Gordon (1992) doi:10.4319/lo.1992.37.6.1307, eq. 8, with the
    coefficients fitted to Benson & Krause (1984). Nitrogen and argon: Hamme &
    Emerson (2004) doi:10.1016/j.dsr.2004.06.009, table 4. Air pressure through the
    vapour pressure of Weiss & Price (1980) doi:10.1016/0304-4203(80)90024-9.

    Examples
    --------
    >>> import halimeda as hm
    >>> water = hm.Water(temperature_celsius=25.0, practical_salinity=35.0)
    >>> round(hm.gas.solubility_umol_per_kg(water, gas="oxygen"), 2)
    206.77
    """

def specific_gravity(water: Water, /, *, sample_celsius: SupportsFloat | SupportsIndex = 25.0, pure_water_celsius: SupportsFloat | SupportsIndex = 25.0, errors: str = "flag") -> Any:
    """
    Specific gravity of a water for other reference temperatures than 25/25 °C.

    Parameters
    ----------
    water : Water
        The water; only its salinity counts.
    sample_celsius, pure_water_celsius : float
        The reference temperatures of the scale, °C.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Specific gravity, dimensionless.

    Raises
    ------
    HalimedaValueError
        The water is outside the published range.

    Source
    ------
    EOS-80: Millero & Poisson (1981) doi:10.1016/0198-0149(81)90122-9.
    """

def stocks() -> tuple[list[tuple[str, str]], list[str], list[str]]:
    """
    Name and unit of every stock of the books, then the names of the processes and
    of the elements.
    """

def stoichiometry(process: str, /, *, oxygen_per_carbon: SupportsFloat | SupportsIndex = 1.1, magnesium_fraction: SupportsFloat | SupportsIndex = 0.0, strontium_fraction: SupportsFloat | SupportsIndex = 0.0) -> Stoichiometry:
    """
    Find what a mole of a process does to the water and its alkalinity.

    Parameters
    ----------
    process : str
        ``"photosynthesis"``, ``"carbon_mineralisation"`` (per mole of carbon),
        ``"nitrate_uptake"``, ``"nitrite_uptake"``, ``"ammonium_uptake"``,
        ``"nitrogen_mineralisation"``, ``"ammonium_oxidation"``, ``"nitrite_oxidation"``,
        ``"nitrification"``, ``"denitrification"`` (of nitrogen), ``"phosphate_uptake"``,
        ``"phosphorus_mineralisation"`` (of phosphorus), ``"calcification"`` or
        ``"dissolution"`` (of carbonate).
    oxygen_per_carbon : float
        Photosynthetic quotient on ammonium, mol/mol, 0.5 to 2: 1 of carbohydrate, 1.1 of
        algal biomass.
    magnesium_fraction, strontium_fraction : float
        Of the cations of a carbonate, mol/mol.

    Returns
    -------
    Stoichiometry
        Moles per mole, and equivalents of alkalinity.

    Raises
    ------
    HalimedaValueError
        There is no such process, or a number is outside its limits.

    Source
    ------
    Middelburg, Soetaert & Hagens (2020) doi:10.1029/2019RG000681, table 2; Laws (1991)
    doi:10.1016/0198-0149(91)90059-O; alkalinity: Wolf-Gladrow et al. (2007)
    doi:10.1016/j.marchem.2007.01.006.

    Examples
    --------
    >>> import halimeda as hm
    >>> hm.nutrient.stoichiometry("nitrification").alkalinity
    -2.0
    """

def temperature_response(*, temperature_celsius: ArrayLike | None = None, temperature: ArrayLike | None = None, parameters: dict[str, SupportsFloat | SupportsIndex] | None = None, errors: str = "flag") -> Any:
    """
    Growth at a temperature relative to that at the optimum.

    Parameters
    ----------
    temperature_celsius, temperature : number or array, quantity
        Temperature, °C.
    parameters : mapping of str to float, optional
        Other values than the defaults of ``halimeda.process.parameters("turf")``.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        0 outside the cardinal temperatures, 1 at the optimum.

    Raises
    ------
    HalimedaValueError
        A number or a parameter is outside its limits, or the cardinal temperatures do
        not rise.

    Source
    ------
    Rosso, Lobry & Flandrois (1993) doi:10.1006/jtbi.1993.1099, eq. 1.
    """

def tissue_metals(*, dry_grams: SupportsFloat | SupportsIndex, parameters: dict[str, SupportsFloat | SupportsIndex] | None = None) -> TissueMetals:
    """
    Find the metals in a mass of harvested turf.

    What leaves with the harvest was in the water: copper in particular is poison to
    invertebrates long before it shows in turf.

    Parameters
    ----------
    dry_grams : float
        Dry mass, g.
    parameters : mapping of str to float, optional
        Other values than the defaults of ``halimeda.process.parameters("tissue_metals")``.

    Returns
    -------
    TissueMetals
        The metals.

    Raises
    ------
    HalimedaValueError
        A number or a parameter is outside its limits, or there is no such parameter.

    Source
    ------
    Published analyses of algal turf; ``halimeda.process.parameters("tissue_metals")``.

    Examples
    --------
    >>> import halimeda as hm
    >>> hm.turf.tissue_metals(dry_grams=20.0).iron_mg
    20.0
    """

def top_off_kg_per_day(*, evaporation_kg_per_day: ArrayLike | None = None, water_kg: ArrayLike | None = None, full_kg: ArrayLike | None = None, parameters: dict[str, SupportsFloat | SupportsIndex] | None = None, errors: str = "flag") -> Any:
    """
    Fresh water that an automatic top-off delivers.

    Parameters
    ----------
    evaporation_kg_per_day : number or array
        What evaporates, kg/d.
    water_kg : number or array
        Water in the system, kg.
    full_kg : number or array
        Water in the full system, kg.
    parameters : mapping of str to float, optional
        Other values than the defaults, by name.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Fresh water, kg/d.

    Raises
    ------
    HalimedaValueError
        A number or a parameter is outside its limits, or there is no such parameter.

    Source
    ------
    Common practice, no source.
    """

def total_gas_pressure(water: Water, /, *, delta_p_mmhg: ArrayLike | None = None, delta_p: ArrayLike | None = None, oxygen_umol_per_kg: ArrayLike | None = None, oxygen: ArrayLike | None = None, nitrogen_umol_per_kg: ArrayLike | None = None, nitrogen: ArrayLike | None = None, argon_umol_per_kg: ArrayLike | None = None, argon: ArrayLike | None = None) -> TotalGasPressure:
    """
    Total gas pressure from a saturometer, or from oxygen and nitrogen.

    Parameters
    ----------
    water : Water
        The water, with its air pressure and, for a depth, its water pressure.
    delta_p_mmhg, delta_p : float, quantity
        What a saturometer shows: total gas pressure less air pressure, mmHg.
    oxygen_umol_per_kg, oxygen : float, quantity
        Dissolved oxygen, µmol/kg: needed without ``delta_p``, and with it gives what
        nitrogen and argon are.
    nitrogen_umol_per_kg, nitrogen : float, quantity
        Dissolved nitrogen, µmol/kg, instead of ``delta_p``.
    argon_umol_per_kg, argon : float, quantity
        Dissolved argon, µmol/kg; saturated like the nitrogen unless given.

    Returns
    -------
    TotalGasPressure
        The pressure in the ways it is told, with cautions.

    Raises
    ------
    HalimedaValueError
        A reading is outside its limits, or oxygen alone exceeds the total.
    HalimedaTypeError
        Neither ΔP nor oxygen and nitrogen were given, or both.

    Source
    ------
    Colt (1984) American Fisheries Society Special Publication 14; Standard Methods 2810.
    Limits: Fidler & Miller (1994) British Columbia Water Quality Guidelines for Dissolved
    Gas Supersaturation; Cornacchia & Colt (1984) J. Fish Dis. 7, 15-27.

    Examples
    --------
    >>> import halimeda as hm
    >>> water = hm.Water(temperature_celsius=25.0, practical_salinity=35.0,
    ...                  water_pressure_dbar=0.5)
    >>> pressure = hm.gas.total_gas_pressure(water, delta_p_mmhg=38.0)
    >>> round(pressure.percent, 6)
    105.0
    >>> pressure.uncompensated_delta_p_mmhg < 1.0
    True
    """

def transfer_factor(water: Water, /, *, measured_celsius: ArrayLike | None = None, gas: str = "oxygen", measured_gas: str = "oxygen", surface: str = "mobile", temperature_law: str = "schmidt", errors: str = "flag") -> Any:
    """
    What carries a transfer coefficient to another gas and temperature.

    Parameters
    ----------
    water : Water
        The water that the coefficient is wanted in.
    measured_celsius : number or array
        Temperature that it was measured at, °C.
    gas : {"oxygen", "nitrogen", "argon", "carbon_dioxide"}
        The gas it is wanted for.
    measured_gas : {"oxygen", "nitrogen", "argon", "carbon_dioxide"}
        The gas it was measured with.
    surface : {"mobile", "rigid"}
        Whether waves, bubbles or a fall renew the surface, or it is still or
        stiffened by a film of organics.
    temperature_law : {"schmidt", "theta"}
        By the Schmidt number, or the 1.024 per °C of oxygen transfer tests.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        The factor, dimensionless.

    Raises
    ------
    HalimedaValueError
        A temperature or the salinity is outside the published range.

    Source
    ------
    Jähne et al. (1987) J. Geophys. Res. 92, 1937-1949; Wanninkhof (2014)
    doi:10.4319/lom.2014.12.351; ASCE/EWRI 2-06 for the factor per °C.
    """

def transfer_m_per_day(*, flow_l_per_h_per_cm: ArrayLike | None = None, flow: ArrayLike | None = None, parameters: dict[str, SupportsFloat | SupportsIndex] | None = None, errors: str = "flag") -> Any:
    """
    Mass transfer velocity between running water and turf.

    Parameters
    ----------
    flow_l_per_h_per_cm, flow : number or array, quantity
        Flow per width of screen, L/h/cm.
    parameters : mapping of str to float, optional
        Other values than the defaults of ``halimeda.process.parameters("screen")``.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Transfer velocity, m/d.

    Raises
    ------
    HalimedaValueError
        A number or a parameter is outside its limits, or there is no such parameter.

    Source
    ------
    Thomas & Atkinson (1997) doi:10.4319/lo.1997.42.1.0081.
    """

def turf_rates(stock: TurfStock, water: Water, /, *, lit_area_m2: SupportsFloat | SupportsIndex, irradiance_umol_per_m2_per_s: SupportsFloat | SupportsIndex, transfer_m_per_day: SupportsFloat | SupportsIndex, nitrate_umol_per_kg: SupportsFloat | SupportsIndex, ammonium_umol_per_kg: SupportsFloat | SupportsIndex, phosphate_umol_per_kg: SupportsFloat | SupportsIndex, inorganic_carbon_umol_per_kg: SupportsFloat | SupportsIndex, oxygen_umol_per_kg: SupportsFloat | SupportsIndex, parameters: dict[str, SupportsFloat | SupportsIndex] | None = None) -> TurfRates:
    """
    Find what the turf of a screen does at a moment.

    Light through the mat, growth on stored nutrient, uptake through the boundary layer, and
    the holdfast layer that starves in its own shade. Most yields that the parameters rest on
    are from waters rich in nutrients; on a reef tank they are an extrapolation.

    Parameters
    ----------
    stock : TurfStock
        What grows on the screen.
    water : Water
        The water.
    lit_area_m2 : float
        Lit area over all faces, m².
    irradiance_umol_per_m2_per_s : float
        On each lit face, µmol/m²/s; zero with the lamp off.
    transfer_m_per_day : float
        Mass transfer velocity, m/d, as of `transfer_m_per_day`; zero of a dry screen.
    nitrate_umol_per_kg, ammonium_umol_per_kg, phosphate_umol_per_kg : float
        Contents of the water, µmol/kg.
    inorganic_carbon_umol_per_kg, oxygen_umol_per_kg : float
        Contents of the water, µmol/kg.
    parameters : mapping of str to float, optional
        Other values than the defaults of ``halimeda.process.parameters("turf")``.

    Returns
    -------
    TurfRates
        Rates per day.

    Raises
    ------
    HalimedaValueError
        A number or a parameter is outside its limits, or there is no such parameter.

    Source
    ------
    Light: Smith (1936) doi:10.1073/pnas.22.8.504; quotas: Droop (1973) J. Phycol. 9,
    264-272; temperature: Rosso et al. (1993) doi:10.1006/jtbi.1993.1099.

    Examples
    --------
    >>> import halimeda as hm
    >>> water = hm.Water(temperature_celsius=25.0, practical_salinity=35.0)
    >>> stock = hm.turf.TurfStock.seeded(lit_area_m2=0.2, settled_g_dry_per_m2=40.0)
    >>> conditions = dict(
    ...     lit_area_m2=0.2, transfer_m_per_day=6.0, nitrate_umol_per_kg=80.0,
    ...     ammonium_umol_per_kg=1.0, phosphate_umol_per_kg=1.0,
    ...     inorganic_carbon_umol_per_kg=2300.0, oxygen_umol_per_kg=200.0)
    >>> lit = hm.turf.turf_rates(stock, water, irradiance_umol_per_m2_per_s=300.0, **conditions)
    >>> dark = hm.turf.turf_rates(stock, water, irradiance_umol_per_m2_per_s=0.0, **conditions)
    >>> lit.fixation_mol_per_day > lit.respiration_mol_per_day, dark.fixation_mol_per_day
    (True, 0.0)
    """

def unfitted(description: Description, log: KeeperLog, ranges: SupportsGetItem[int, tuple[SupportsFloat | SupportsIndex, SupportsFloat | SupportsIndex, SupportsFloat | SupportsIndex]], members: SupportsIndex, seed: SupportsIndex) -> Members:
    """
    Draws from ranges, each with what the log says was done: where nothing was fitted.
    """

def unionised_ammonia(water: Water, /, *, ph_total: SupportsFloat | SupportsIndex, ammonia_umol_per_kg: ArrayLike | None = None, ammonia: ArrayLike | None = None, ph_standard_uncertainty: SupportsFloat | SupportsIndex = 0.0, ammonia_standard_uncertainty_umol_per_kg: SupportsFloat | SupportsIndex = 0.0) -> UnionisedAmmonia:
    """
    Find the toxic part of total ammonia and hold it against the limits.

    The criteria protect most marine species most of the time; they are no promise for one
    animal, and nothing here replaces a veterinarian.

    Parameters
    ----------
    water : Water
        The water.
    ph_total : float
        The pH on the total scale; of a probe in NBS buffers convert it first.
    ammonia_umol_per_kg, ammonia : float, quantity
        Total ammonia, µmol/kg: ``ammonia="0.5 mg/L N"``.
    ph_standard_uncertainty : float
        Of the pH.
    ammonia_standard_uncertainty_umol_per_kg : float
        Of total ammonia, µmol/kg.

    Returns
    -------
    UnionisedAmmonia
        Content, verdict and caution.

    Raises
    ------
    HalimedaValueError
        The water, the pH or the ammonia is outside its limits.

    Source
    ------
    Clegg & Whitfield (1995) doi:10.1016/0016-7037(95)00135-2. Limits: US EPA (1989) EPA
    440/5-88-004, read as milligrams of NH3.

    Examples
    --------
    >>> import halimeda as hm
    >>> water = hm.Water(temperature_celsius=25.0, practical_salinity=35.0)
    >>> hm.nutrient.unionised_ammonia(water, ph_total=8.1, ammonia="0.5 mg/L N").verdict
    'above_chronic'
    """

def unionised_ammonia_fraction(water: Water, /, *, ph_total: ArrayLike | None = None, errors: str = "flag") -> Any:
    """
    Un-ionised part of total ammonia, the toxic one.

    A reading of a probe in NBS buffers has to be converted first: taken as it is, it
    overstates the toxic part by about a third.

    Parameters
    ----------
    water : Water
        The water.
    ph_total : number or array
        The pH on the total scale.
    errors : {"flag", "raise"}
        Refused rows of arrays: NaN and a warning with the reasons, or an exception.

    Returns
    -------
    number or array
        Share of total ammonia, 0 to 1.

    Raises
    ------
    HalimedaValueError
        The water or the pH is outside its limits.

    Source
    ------
    Clegg & Whitfield (1995) doi:10.1016/0016-7037(95)00135-2.
    """

def upkeep_calendar(description: Description, upkeep: str, made_milliseconds: SupportsIndex, hour: SupportsFloat | SupportsIndex, reminder_minutes: SupportsIndex | None) -> str:
    """
    The text of an iCalendar file.
    """

def upkeep_words(upkeep: str) -> list[tuple[str, str]]:
    """
    What to do about each task, in words, and what to take care of.
    """

def variables() -> list[tuple[str, str, str]]:
    """
    Name and unit of every number of a sample, and what answers call it.
    """

def written_toml(tables: dict[str, Any]) -> str:
    """
    A description written from tables, as TOML.
    """
