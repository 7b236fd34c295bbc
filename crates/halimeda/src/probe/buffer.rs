use crate::Result;
use crate::error::within;
use crate::quantity::{NbsScale, Ph, PracticalSalinity, Temperature, TotalScale};
use crate::real::{Real, log10, polynomial};
use crate::relation::{Extrapolation, Relation};

/// Primary pH standards of the National Bureau of Standards, today's NIST:
/// dilute buffers that define the scale of hobby and laboratory probes.
///
/// Values from 0 to 50 °C: Buck et al. (2002), IUPAC Recommendations, Pure
/// Appl. Chem. 74, 2169-2200, table 2 (doi 10.1351/pac200274112169), after
/// Bates (1962), J. Res. NBS 66A, 179-184, and Staples & Bates (1969), J. Res.
/// NBS 73A, 37-41; the digits from memory and confirmed against secondary
/// copies of the NBS tables, which differ from them by at most 0.001. Between
/// the tabulated temperatures linear, within 0.002.
///
/// The technical buffers "4", "7" and "10" are other recipes: take their pH at
/// the temperature of the buffer from the label.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum ReferenceBuffer {
    /// 0.05 mol/kg potassium hydrogen phthalate, 4.005 at 25 °C.
    Phthalate,
    /// 0.025 mol/kg potassium dihydrogen and disodium hydrogen phosphate, 6.865
    /// at 25 °C.
    Phosphate,
    /// 0.008695 mol/kg potassium dihydrogen and 0.03043 mol/kg disodium hydrogen
    /// phosphate, 7.413 at 25 °C.
    PhysiologicalPhosphate,
    /// 0.01 mol/kg borax, 9.180 at 25 °C. Takes up CO2: use it fresh.
    Borax,
    /// 0.025 mol/kg sodium hydrogen carbonate and carbonate, 10.012 at 25 °C.
    /// Takes up CO2: use it fresh.
    Carbonate,
}

const TABLE_CELSIUS: [f64; 10] = [0.0, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 50.0];

impl ReferenceBuffer {
    const fn table(self) -> [f64; 10] {
        match self {
            Self::Phthalate => [
                4.000, 3.998, 3.997, 3.998, 4.000, 4.005, 4.011, 4.018, 4.027, 4.050,
            ],
            Self::Phosphate => [
                6.984, 6.951, 6.923, 6.900, 6.881, 6.865, 6.853, 6.844, 6.838, 6.833,
            ],
            Self::PhysiologicalPhosphate => [
                7.534, 7.500, 7.472, 7.448, 7.429, 7.413, 7.400, 7.389, 7.380, 7.367,
            ],
            Self::Borax => [
                9.464, 9.395, 9.332, 9.276, 9.225, 9.180, 9.139, 9.102, 9.068, 9.011,
            ],
            Self::Carbonate => [
                10.317, 10.245, 10.179, 10.118, 10.062, 10.012, 9.966, 9.926, 9.889, 9.828,
            ],
        }
    }

    /// pH of the buffer at a temperature, 0 to 50 °C.
    ///
    /// # Errors
    /// The temperature lies outside the published table.
    pub fn ph(self, temperature: Temperature) -> Result<Ph<NbsScale>> {
        let t = within("buffer temperature", temperature.celsius(), 0.0, 50.0, "°C")?;
        let nodes = TABLE_CELSIUS.into_iter().zip(self.table());
        let mut value = f64::NAN;
        for ((t0, ph0), (t1, ph1)) in nodes.clone().zip(nodes.skip(1)) {
            if t0 <= t && t <= t1 {
                value = ph0 + (ph1 - ph0) * (t - t0) / (t1 - t0);
            }
        }
        Ph::new(value)
    }
}

/// Buffers made up in artificial seawater, 0.04 mol per kg of water of the acid
/// and of the base: they calibrate a probe on the total scale, in a medium
/// whose liquid junction is that of the tank.
///
/// Buy them with a certificate or make them to the recipe of Dickson, Sabine &
/// Christian (2007), Guide to best practices for ocean CO2 measurements, PICES
/// Special Publication 3, SOP 6a.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum SeawaterBuffer {
    /// 2-amino-2-hydroxymethyl-1,3-propanediol ("tris"), 8.094 at 25 °C and
    /// salinity 35. [`Relation::TrisDelVallsDickson1998`].
    Tris,
    /// 2-aminopyridine ("AMP"), 6.787 at 25 °C and salinity 35. Toxic: gloves
    /// and eye protection, never in the tank, safety data sheet first.
    /// [`Relation::AminopyridineDickson1993`].
    Aminopyridine,
}

impl SeawaterBuffer {
    /// Published relation the pH comes from.
    #[must_use]
    pub const fn relation(self) -> Relation {
        match self {
            Self::Tris => Relation::TrisDelVallsDickson1998,
            Self::Aminopyridine => Relation::AminopyridineDickson1993,
        }
    }

    /// pH of the buffer at a temperature and at the salinity it was made up to.
    ///
    /// # Errors
    /// Temperature or salinity outside the published range of
    /// [`relation`](Self::relation): a buffer is chosen, not met, so there is no
    /// extrapolation.
    pub fn ph(
        self,
        temperature: Temperature,
        salinity: PracticalSalinity,
    ) -> Result<Ph<TotalScale>> {
        self.relation()
            .check(temperature, salinity, Extrapolation::Refuse)?;
        let (t, s) = (temperature.kelvin(), salinity.value());
        Ph::new(match self {
            Self::Tris => tris_delvalls_dickson1998(t, s),
            Self::Aminopyridine => aminopyridine_dickson1993(t, s),
        })
    }
}

/// DelValls & Dickson (1998) eq. 18, in mol/kg of solution as in SOP 6a.
fn tris_delvalls_dickson1998(kelvin: f64, s: f64) -> f64 {
    polynomial(s, [11911.08, -18.2499, -0.039336]) / kelvin
        + polynomial(s, [-366.27059, 0.53993607, 0.00016329])
        + polynomial(s, [64.52243, -0.084041]) * Real::ln(kelvin)
        - 0.11149858 * kelvin
}

/// Dickson (1993), in mol/kg of solution as in SOP 6a.
fn aminopyridine_dickson1993(kelvin: f64, s: f64) -> f64 {
    (111.35 + 5.44875 * s) / kelvin + 41.6775
        - 0.015683 * s
        - 6.20815 * Real::ln(kelvin)
        - log10(1.0 - 0.00106 * s)
}
