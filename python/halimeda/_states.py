"""The carbonate system of arrays."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, ClassVar

import numpy as np

from halimeda import _display
from halimeda._errors import HalimedaError
from halimeda._native import _outputs, _statuses

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

    from halimeda._containers import Wrapper

UNITS = dict(_outputs())
STATUSES = tuple(_statuses())


class _Columns:
    """Named columns of results, put into the container of the arguments when read."""

    _columns: Mapping[str, NDArray[np.float64]]
    _wrapper: Wrapper | None

    def _column(self, name: str) -> Any:
        try:
            column = self._columns[name]
        except KeyError:
            raise AttributeError(
                f"{name} was not computed; ask for it: outputs=(\"{name}\", ...)"
            ) from None
        return column if self._wrapper is None else self._wrapper.wrap(column, name, UNITS[name])


class AlkalinityPartColumns(_Columns):
    """What makes up the total alkalinity of each row, µmol/kg; acids count negative."""

    def __init__(self, columns: Mapping[str, NDArray[np.float64]], wrapper: Wrapper | None) -> None:
        self._columns = columns
        self._wrapper = wrapper

    @property
    def bicarbonate_umol_per_kg(self) -> Any:
        """Alkalinity as bicarbonate, µmol/kg."""
        return self._column("bicarbonate_alkalinity_umol_per_kg")

    @property
    def carbonate_umol_per_kg(self) -> Any:
        """Alkalinity as carbonate, µmol/kg."""
        return self._column("carbonate_alkalinity_umol_per_kg")

    @property
    def borate_umol_per_kg(self) -> Any:
        """Alkalinity as borate, µmol/kg."""
        return self._column("borate_alkalinity_umol_per_kg")

    @property
    def hydroxide_umol_per_kg(self) -> Any:
        """Alkalinity as hydroxide, µmol/kg."""
        return self._column("hydroxide_alkalinity_umol_per_kg")

    @property
    def phosphate_umol_per_kg(self) -> Any:
        """Alkalinity as phosphate, µmol/kg."""
        return self._column("phosphate_alkalinity_umol_per_kg")

    @property
    def silicate_umol_per_kg(self) -> Any:
        """Alkalinity as silicate, µmol/kg."""
        return self._column("silicate_alkalinity_umol_per_kg")

    @property
    def ammonia_umol_per_kg(self) -> Any:
        """Alkalinity as ammonia, µmol/kg."""
        return self._column("ammonia_alkalinity_umol_per_kg")

    @property
    def sulfide_umol_per_kg(self) -> Any:
        """Alkalinity as sulfide, µmol/kg."""
        return self._column("sulfide_alkalinity_umol_per_kg")

    @property
    def free_hydrogen_umol_per_kg(self) -> Any:
        """Alkalinity as free hydrogen, µmol/kg."""
        return self._column("free_hydrogen_alkalinity_umol_per_kg")

    @property
    def bisulfate_umol_per_kg(self) -> Any:
        """Alkalinity as bisulfate, µmol/kg."""
        return self._column("bisulfate_alkalinity_umol_per_kg")

    @property
    def hydrogen_fluoride_umol_per_kg(self) -> Any:
        """Alkalinity as hydrogen fluoride, µmol/kg."""
        return self._column("hydrogen_fluoride_alkalinity_umol_per_kg")


class BufferFactorColumns(_Columns):
    """Revelle factor and buffer factors of Egleston et al. (2010) of each row."""

    def __init__(self, columns: Mapping[str, NDArray[np.float64]], wrapper: Wrapper | None) -> None:
        self._columns = columns
        self._wrapper = wrapper

    @property
    def revelle(self) -> Any:
        """Derivative ∂ln[CO2]/∂ln DIC at constant alkalinity, dimensionless."""
        return self._column("revelle")

    @property
    def gamma_dic_mol_per_kg(self) -> Any:
        """Inverse derivative (∂ln[CO2]/∂DIC)⁻¹ at constant alkalinity, mol/kg."""
        return self._column("gamma_dic_mol_per_kg")

    @property
    def beta_dic_mol_per_kg(self) -> Any:
        """Inverse derivative (∂ln[H⁺]/∂DIC)⁻¹ at constant alkalinity, mol/kg."""
        return self._column("beta_dic_mol_per_kg")

    @property
    def omega_dic_mol_per_kg(self) -> Any:
        """Inverse derivative (∂ln Ω/∂DIC)⁻¹ at constant alkalinity, mol/kg."""
        return self._column("omega_dic_mol_per_kg")

    @property
    def gamma_alkalinity_mol_per_kg(self) -> Any:
        """Inverse derivative (∂ln[CO2]/∂Alk)⁻¹ at constant DIC, mol/kg."""
        return self._column("gamma_alkalinity_mol_per_kg")

    @property
    def beta_alkalinity_mol_per_kg(self) -> Any:
        """Inverse derivative (∂ln[H⁺]/∂Alk)⁻¹ at constant DIC, mol/kg."""
        return self._column("beta_alkalinity_mol_per_kg")

    @property
    def omega_alkalinity_mol_per_kg(self) -> Any:
        """Inverse derivative (∂ln Ω/∂Alk)⁻¹ at constant DIC, mol/kg."""
        return self._column("omega_alkalinity_mol_per_kg")


class CarbonateStates(_Columns):
    """The carbonate system of every row of arrays.

    Each result is an attribute of the name it has in `CarbonateState`, in the
    shape and the container of the arguments, NaN where a row was refused. Those
    that were not asked for raise AttributeError.

    Attributes
    ----------
    status : array of uint8
        How each row ended, an index of `statuses`.
    problems : list of (int, HalimedaError)
        Row, of the flattened arrays, and why it was refused or answered in part;
        the first 1000.
    problem_count : int
        How many there are.
    """

    statuses: tuple[str, ...] = STATUSES

    def __init__(
        self,
        columns: Mapping[str, NDArray[np.float64]],
        status: NDArray[np.uint8],
        problems: list[tuple[int, HalimedaError]],
        problem_count: int,
        wrapper: Wrapper | None,
    ) -> None:
        self._columns = columns
        self._status = status
        self._wrapper = wrapper
        self.problems = problems
        self.problem_count = problem_count
        for column in columns.values():
            column.flags.writeable = False
        status.flags.writeable = False

    @property
    def status(self) -> Any:
        """How each row ended: an index of `statuses`."""
        return (
            self._status
            if self._wrapper is None
            else self._wrapper.wrap(self._status, "status", "")
        )

    @property
    def shape(self) -> tuple[int, ...]:
        """Shape of every result."""
        return self._status.shape

    @property
    def outputs(self) -> tuple[str, ...]:
        """Names of the results that were computed."""
        return tuple(self._columns)

    @property
    def ph_total(self) -> Any:
        """The pH on the total scale."""
        return self._column("ph_total")

    @property
    def ph_free(self) -> Any:
        """The pH on the free scale."""
        return self._column("ph_free")

    @property
    def ph_seawater(self) -> Any:
        """The pH on the seawater scale."""
        return self._column("ph_seawater")

    @property
    def ph_nbs(self) -> Any:
        """The pH on the NBS scale; NaN outside the range of its relation."""
        return self._column("ph_nbs")

    @property
    def alkalinity_umol_per_kg(self) -> Any:
        """Total alkalinity, µmol/kg."""
        return self._column("alkalinity_umol_per_kg")

    @property
    def inorganic_carbon_umol_per_kg(self) -> Any:
        """Dissolved inorganic carbon, µmol/kg."""
        return self._column("inorganic_carbon_umol_per_kg")

    @property
    def carbon_dioxide_umol_per_kg(self) -> Any:
        """Dissolved CO2, µmol/kg."""
        return self._column("carbon_dioxide_umol_per_kg")

    @property
    def bicarbonate_umol_per_kg(self) -> Any:
        """Bicarbonate, µmol/kg."""
        return self._column("bicarbonate_umol_per_kg")

    @property
    def carbonate_umol_per_kg(self) -> Any:
        """Carbonate, µmol/kg."""
        return self._column("carbonate_umol_per_kg")

    @property
    def fugacity_co2_uatm(self) -> Any:
        """Fugacity of CO2, µatm."""
        return self._column("fugacity_co2_uatm")

    @property
    def partial_pressure_co2_uatm(self) -> Any:
        """Partial pressure of CO2, µatm."""
        return self._column("partial_pressure_co2_uatm")

    @property
    def dry_mole_fraction_co2_ppm(self) -> Any:
        """Mole fraction of CO2 in dry air at equilibrium, ppm; NaN outside the range of its relation."""
        return self._column("dry_mole_fraction_co2_ppm")

    @property
    def aragonite_saturation(self) -> Any:
        """Saturation state of aragonite."""
        return self._column("aragonite_saturation")

    @property
    def calcite_saturation(self) -> Any:
        """Saturation state of calcite."""
        return self._column("calcite_saturation")

    @property
    def hydrogen_total_mol_per_kg(self) -> Any:
        """Hydrogen ion on the total scale, mol/kg."""
        return self._column("hydrogen_total_mol_per_kg")

    @property
    def hydrogen_free_mol_per_kg(self) -> Any:
        """Hydrogen ion on the free scale, mol/kg."""
        return self._column("hydrogen_free_mol_per_kg")

    @property
    def hydroxide_mol_per_kg(self) -> Any:
        """Hydroxide, mol/kg."""
        return self._column("hydroxide_mol_per_kg")

    @property
    def unionised_ammonia_umol_per_kg(self) -> Any:
        """Un-ionised ammonia, µmol/kg."""
        return self._column("unionised_ammonia_umol_per_kg")

    @property
    def alkalinity_parts(self) -> AlkalinityPartColumns:
        """What makes up the total alkalinity (``outputs="alkalinity_parts"``)."""
        return AlkalinityPartColumns(self._columns, self._wrapper)

    @property
    def buffer_factors(self) -> BufferFactorColumns:
        """Revelle factor and buffer factors (``outputs="buffer_factors"``)."""
        return BufferFactorColumns(self._columns, self._wrapper)

    def to_dict(self) -> dict[str, NDArray[Any]]:
        """Results and status as plain arrays by name."""
        return {**self._columns, "status": self._status}

    def to_table(self) -> Any:
        """Results and status as a DataFrame or Dataset of the kind of the arguments.

        Raises
        ------
        HalimedaTypeError
            The arguments were plain arrays; `to_dict` has theirs.
        """
        if self._wrapper is None:
            from halimeda._errors import HalimedaTypeError

            raise HalimedaTypeError(
                "the arguments were arrays, not Series or DataArrays: use to_dict()",
                kind="argument",
            )
        return self._wrapper.table(self.to_dict(), UNITS)

    def __len__(self) -> int:
        if not self.shape:
            raise TypeError("a CarbonateStates of one row has no length")
        return self.shape[0]

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, CarbonateStates):
            return NotImplemented
        mine, others = self.to_dict(), other.to_dict()
        return mine.keys() == others.keys() and all(
            np.array_equal(mine[name], others[name], equal_nan=True) for name in mine
        )

    __hash__: ClassVar[None] = None  # type: ignore[assignment]

    def __reduce__(self) -> tuple[object, ...]:
        return (
            CarbonateStates,
            (dict(self._columns), self._status, self.problems, self.problem_count, self._wrapper),
        )

    def _counts(self) -> str:
        counts = np.bincount(self._status.ravel(), minlength=len(STATUSES))
        return ", ".join(
            f"{count} {name}" for name, count in zip(STATUSES, counts, strict=True) if count
        )

    def __repr__(self) -> str:
        return f"CarbonateStates(shape={self.shape}: {self._counts()})"

    def _repr_html_(self) -> str:
        rows = [
            (label, _display.number(self._columns[name], digits), unit)
            for label, name, digits, unit in _display.STATE_ROWS
            if name in self._columns
        ]
        notes = [f"row {row}: {error}" for row, error in self.problems[:5]]
        if self.problem_count > len(notes):
            notes.append(f"and {self.problem_count - len(notes)} more, see problems")
        return _display.table(f"Carbonate system, {self.shape}: {self._counts()}", rows, notes)
