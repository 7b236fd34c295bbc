//! The one table of how far an output may lie from a reference implementation.
//!
//! A row is a promise: it is widened only with a reason that stands beside it.
//! (Published values need no row: they allow half a unit of their last digit.)

/// How far two numbers may lie apart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Tolerance {
    /// `|a - b|` at most this.
    Absolute(f64),
    /// `|a - b| / |b|` at most this.
    Relative(f64),
}

/// A row of the table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Row {
    /// The outputs it holds for, as the columns of the reference files name them.
    pub outputs: &'static [&'static str],
    /// How far they may lie apart.
    pub tolerance: Tolerance,
    /// Why no less, or why no more.
    pub reason: &'static str,
}

/// Every output that is compared.
pub const TABLE: &[Row] = &[
    Row {
        outputs: &["ph_total", "ph_free", "ph_seawater", "ph_nbs"],
        tolerance: Tolerance::Absolute(1e-10),
        reason: "the same equations solved to the last digits, a millionth of the finest pH meter",
    },
    Row {
        outputs: &[
            "k0",
            "k1",
            "k2",
            "kw",
            "kb",
            "kso4",
            "kf",
            "kp1",
            "kp2",
            "kp3",
            "ksi",
            "knh4",
            "kh2s",
            "ksp_aragonite",
            "ksp_calcite",
            "fugacity_coefficient",
            "total_boron",
        ],
        tolerance: Tolerance::Relative(1e-9),
        reason: "the same coefficients: what differs is the order of rounding",
    },
    Row {
        outputs: &[
            "alkalinity",
            "dic",
            "pco2",
            "fco2",
            "xco2",
            "co2",
            "bicarbonate",
            "carbonate",
            "omega_aragonite",
            "omega_calcite",
            "hydrogen_free",
            "hydroxide",
            "borate",
            "bisulfate",
            "hydrogen_fluoride",
            "ammonia",
            "alkalinity_phosphate",
            "alkalinity_silicate",
            "alkalinity_ammonia",
            "alkalinity_sulfide",
        ],
        tolerance: Tolerance::Relative(1e-9),
        reason: "a pH off by 1e-10 moves hydrogen ion by 2.3e-10 of itself",
    },
    Row {
        outputs: &["practical_salinity", "conductivity", "oxygen_solubility"],
        tolerance: Tolerance::Relative(1e-9),
        reason: "the same coefficients; one of the two salinity relations is inverted iteratively",
    },
    Row {
        outputs: &[
            "revelle_factor",
            "gamma_dic",
            "beta_dic",
            "omega_dic",
            "gamma_alk",
            "beta_alk",
            "omega_alk",
        ],
        tolerance: Tolerance::Relative(1e-9),
        reason: "exact derivatives on both sides",
    },
];

/// The tolerance of an output.
///
/// # Panics
/// The table has no row for it: what is compared is also promised.
#[must_use]
#[track_caller]
pub fn of(output: &str) -> Tolerance {
    TABLE
        .iter()
        .find(|row| row.outputs.contains(&output))
        .map_or_else(
            || panic!("the tolerance table has no row for `{output}`"),
            |row| row.tolerance,
        )
}
