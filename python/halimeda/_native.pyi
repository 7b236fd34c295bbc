# Written by `cargo xtask stubs`; change the Rust side instead.
"""
The native half of halimeda; import `halimeda` instead.
"""

from _typeshed import SupportsGetItem, SupportsLenAndGetItem
from typing import Any, Final, SupportsFloat, SupportsIndex, final

__all__ = ["__version__", "AlkalinityParts", "BufferFactors", "CarbonateState", "EquilibriumConstants", "Relation", "Sensitivities", "Uncertainties", "Water", "_Measure", "_outputs", "_restore_state", "_restore_water", "_split_quantity", "_statuses", "air_pressure_from_sea_level", "carbonate", "conductivity_from_specific_conductance", "practical_salinity_from_conductivity", "practical_salinity_from_density", "practical_salinity_from_hydrometer", "practical_salinity_from_refractive_index", "practical_salinity_from_refractometer", "practical_salinity_from_specific_gravity", "relations", "specific_gravity"]

__version__: Final[str]
"""
The version of the package.
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
    def __new__(cls, /, *, temperature_celsius: Any | None = None, temperature: Any | None = None, practical_salinity: Any | None = None, specific_gravity: Any | None = None, hydrometer: Any | None = None, conductivity_ms_per_cm: Any | None = None, conductivity: Any | None = None, density_kg_per_m3: Any | None = None, density: Any | None = None, refractive_index: Any | None = None, refractometer: Any | None = None, water_pressure_dbar: Any | None = None, water_pressure: Any | None = None, air_pressure_atm: Any | None = None, air_pressure: Any | None = None, altitude_m: Any | None = None, altitude: Any | None = None, calcium_umol_per_kg: Any | None = None, calcium: Any | None = None, magnesium_umol_per_kg: Any | None = None, magnesium: Any | None = None, potassium_umol_per_kg: Any | None = None, potassium: Any | None = None, strontium_umol_per_kg: Any | None = None, strontium: Any | None = None, sulfate_umol_per_kg: Any | None = None, sulfate: Any | None = None, fluoride_umol_per_kg: Any | None = None, fluoride: Any | None = None, boron_umol_per_kg: Any | None = None, boron: Any | None = None, extrapolate: bool = False) -> Water: ...
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
    def carbonate(self, /, *, alkalinity_umol_per_kg: Any | None = None, alkalinity: Any | None = None, inorganic_carbon_umol_per_kg: Any | None = None, inorganic_carbon: Any | None = None, ph_total: Any | None = None, ph_free: Any | None = None, ph_seawater: Any | None = None, ph_nbs: Any | None = None, ph: Any | None = None, partial_pressure_co2_uatm: Any | None = None, partial_pressure_co2: Any | None = None, fugacity_co2_uatm: Any | None = None, fugacity_co2: Any | None = None, carbon_dioxide_umol_per_kg: Any | None = None, carbon_dioxide: Any | None = None, bicarbonate_umol_per_kg: Any | None = None, bicarbonate: Any | None = None, carbonate_umol_per_kg: Any | None = None, carbonate: Any | None = None, aragonite_saturation: Any | None = None, calcite_saturation: Any | None = None, phosphate_umol_per_kg: Any | None = None, phosphate: Any | None = None, silicate_umol_per_kg: Any | None = None, silicate: Any | None = None, ammonia_umol_per_kg: Any | None = None, ammonia: Any | None = None, sulfide_umol_per_kg: Any | None = None, sulfide: Any | None = None, carbonic_acid: str = "lueker2000", bisulfate: str = "dickson1990", hydrogen_fluoride: str = "perez_fraga1987", total_boron: str = "lee2010", outputs: Any | None = None, threads: SupportsIndex = 1, errors: str = "flag") -> Any:
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
    def carbonate_all(self, /, *, alkalinity_umol_per_kg: Any | None = None, alkalinity: Any | None = None, inorganic_carbon_umol_per_kg: Any | None = None, inorganic_carbon: Any | None = None, ph_total: Any | None = None, ph_free: Any | None = None, ph_seawater: Any | None = None, ph_nbs: Any | None = None, ph: Any | None = None, partial_pressure_co2_uatm: Any | None = None, partial_pressure_co2: Any | None = None, fugacity_co2_uatm: Any | None = None, fugacity_co2: Any | None = None, carbon_dioxide_umol_per_kg: Any | None = None, carbon_dioxide: Any | None = None, bicarbonate_umol_per_kg: Any | None = None, bicarbonate: Any | None = None, carbonate_umol_per_kg: Any | None = None, carbonate: Any | None = None, aragonite_saturation: Any | None = None, calcite_saturation: Any | None = None, phosphate_umol_per_kg: Any | None = None, phosphate: Any | None = None, silicate_umol_per_kg: Any | None = None, silicate: Any | None = None, ammonia_umol_per_kg: Any | None = None, ammonia: Any | None = None, sulfide_umol_per_kg: Any | None = None, sulfide: Any | None = None, carbonic_acid: str = "lueker2000", bisulfate: str = "dickson1990", hydrogen_fluoride: str = "perez_fraga1987", total_boron: str = "lee2010") -> "tuple[CarbonateState, ...]":
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

def air_pressure_from_sea_level(*, sea_level_pressure_atm: Any | None = None, sea_level_pressure: Any | None = None, altitude_m: Any | None = None, altitude: Any | None = None, errors: str = "flag") -> Any:
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

def carbonate(table: Any | None = None, /, *, temperature_celsius: Any | None = None, temperature: Any | None = None, practical_salinity: Any | None = None, specific_gravity: Any | None = None, hydrometer: Any | None = None, conductivity_ms_per_cm: Any | None = None, conductivity: Any | None = None, density_kg_per_m3: Any | None = None, density: Any | None = None, refractive_index: Any | None = None, refractometer: Any | None = None, water_pressure_dbar: Any | None = None, water_pressure: Any | None = None, air_pressure_atm: Any | None = None, air_pressure: Any | None = None, altitude_m: Any | None = None, altitude: Any | None = None, calcium_umol_per_kg: Any | None = None, calcium: Any | None = None, magnesium_umol_per_kg: Any | None = None, magnesium: Any | None = None, potassium_umol_per_kg: Any | None = None, potassium: Any | None = None, strontium_umol_per_kg: Any | None = None, strontium: Any | None = None, sulfate_umol_per_kg: Any | None = None, sulfate: Any | None = None, fluoride_umol_per_kg: Any | None = None, fluoride: Any | None = None, boron_umol_per_kg: Any | None = None, boron: Any | None = None, extrapolate: bool = False, alkalinity_umol_per_kg: Any | None = None, alkalinity: Any | None = None, inorganic_carbon_umol_per_kg: Any | None = None, inorganic_carbon: Any | None = None, ph_total: Any | None = None, ph_free: Any | None = None, ph_seawater: Any | None = None, ph_nbs: Any | None = None, ph: Any | None = None, partial_pressure_co2_uatm: Any | None = None, partial_pressure_co2: Any | None = None, fugacity_co2_uatm: Any | None = None, fugacity_co2: Any | None = None, carbon_dioxide_umol_per_kg: Any | None = None, carbon_dioxide: Any | None = None, bicarbonate_umol_per_kg: Any | None = None, bicarbonate: Any | None = None, carbonate_umol_per_kg: Any | None = None, carbonate: Any | None = None, aragonite_saturation: Any | None = None, calcite_saturation: Any | None = None, phosphate_umol_per_kg: Any | None = None, phosphate: Any | None = None, silicate_umol_per_kg: Any | None = None, silicate: Any | None = None, ammonia_umol_per_kg: Any | None = None, ammonia: Any | None = None, sulfide_umol_per_kg: Any | None = None, sulfide: Any | None = None, carbonic_acid: str = "lueker2000", bisulfate: str = "dickson1990", hydrogen_fluoride: str = "perez_fraga1987", total_boron: str = "lee2010", outputs: Any | None = None, threads: SupportsIndex = 1, errors: str = "flag") -> Any:
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

def conductivity_from_specific_conductance(*, specific_conductance_ms_per_cm: Any | None = None, specific_conductance: Any | None = None, temperature_celsius: Any | None = None, temperature: Any | None = None, reference_celsius: SupportsFloat | SupportsIndex = ..., percent_per_celsius: SupportsFloat | SupportsIndex = ..., errors: str = "flag") -> Any:
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

def practical_salinity_from_conductivity(*, conductivity_ms_per_cm: Any | None = None, conductivity: Any | None = None, temperature_celsius: Any | None = None, temperature: Any | None = None, water_pressure_dbar: Any | None = None, water_pressure: Any | None = None, extrapolate: bool = ..., errors: str = "flag") -> Any:
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

def practical_salinity_from_density(*, density_kg_per_m3: Any | None = None, density: Any | None = None, temperature_celsius: Any | None = None, temperature: Any | None = None, extrapolate: bool = ..., errors: str = "flag") -> Any:
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

def practical_salinity_from_hydrometer(*, hydrometer: Any | None = None, temperature_celsius: Any | None = None, temperature: Any | None = None, sample_celsius: SupportsFloat | SupportsIndex = ..., pure_water_celsius: SupportsFloat | SupportsIndex = ..., extrapolate: bool = ..., errors: str = "flag") -> Any:
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

def practical_salinity_from_refractive_index(*, refractive_index: Any | None = None, temperature_celsius: Any | None = None, temperature: Any | None = None, wavelength_nm: Any | None = None, wavelength: Any | None = None, extrapolate: bool = ..., errors: str = "flag") -> Any:
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

def practical_salinity_from_refractometer(*, refractometer: Any | None = None, scale: str = "seawater", adjusted_with: str = "pure_water", fluid: SupportsFloat | SupportsIndex | None = None, adjusted_to: SupportsFloat | SupportsIndex = 0.0, fluid_celsius: SupportsFloat | SupportsIndex | None = None, sample_celsius: SupportsFloat | SupportsIndex | None = None, extrapolate: bool = False, errors: str = "flag") -> Any:
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

def practical_salinity_from_specific_gravity(*, specific_gravity: Any | None = None, sample_celsius: SupportsFloat | SupportsIndex = ..., pure_water_celsius: SupportsFloat | SupportsIndex = ..., extrapolate: bool = ..., errors: str = "flag") -> Any:
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

def specific_gravity(water: Water, /, *, sample_celsius: SupportsFloat | SupportsIndex = ..., pure_water_celsius: SupportsFloat | SupportsIndex = ..., errors: str = "flag") -> Any:
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
