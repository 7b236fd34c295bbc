use crate::Result;
use crate::error::{Error, within};
use crate::quantity::{Density, Mass, Volume};
use crate::real::{Real, sqrt};

/// Net volume of water in a system: what its vessels hold less what rock and
/// sand displace, with the uncertainty of both.
///
/// A dose reckoned for the gross volume of a tank with much rock is a tenth or
/// more too large; check a large correction in steps.
///
/// Every item carries the standard uncertainty its measurement has; they are
/// taken as independent. Measure the water height, not the glass, and add the
/// sump at its running level.
///
/// ```
/// use halimeda::Volume;
/// use halimeda::water::NetVolume;
/// let net = NetVolume::new()
///     .tank_cm(100.0, 50.0, 48.0, 0.3)?
///     .vessel(Volume::from_litres(40.0)?, Volume::from_litres(2.0)?)?
///     .solid(45.0, NetVolume::ARAGONITE_KG_PER_L, Volume::from_litres(2.0)?)?;
/// assert!((net.volume()?.litres() - 264.6).abs() < 0.1);
/// assert!((net.standard_uncertainty()?.litres() - 3.6).abs() < 0.1);
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[must_use]
pub struct NetVolume {
    gross_litres: f64,
    displaced_litres: f64,
    variance_litres_squared: f64,
}

const CM3_PER_LITRE: f64 = 1000.0;

impl NetVolume {
    /// Density of solid aragonite, kg/L: 2.93 (mineral handbooks, from memory).
    /// Skeletons of living corals were measured at 2.78 to 2.87 (Bucher, D. J.,
    /// Harriott, V. J., Roberts, L. G. (1998) J. Exp. Mar. Biol. Ecol. 228, 117-136).
    pub const ARAGONITE_KG_PER_L: f64 = 2.93;
    /// Density of solid calcite, kg/L (mineral handbooks, from memory).
    pub const CALCITE_KG_PER_L: f64 = 2.71;
    /// Density of solid quartz, kg/L (mineral handbooks, from memory).
    pub const QUARTZ_KG_PER_L: f64 = 2.65;

    /// An empty system.
    pub const fn new() -> Self {
        Self {
            gross_litres: 0.0,
            displaced_litres: 0.0,
            variance_litres_squared: 0.0,
        }
    }

    /// With a rectangular tank: inner length, inner width and water height in cm,
    /// each with the same standard uncertainty in cm.
    ///
    /// # Errors
    /// A dimension is not finite or outside 1 to 10 000 cm; the uncertainty is
    /// not finite, negative or above 10 cm.
    pub fn tank_cm(
        self,
        length: f64,
        width: f64,
        water_height: f64,
        uncertainty: f64,
    ) -> Result<Self> {
        let length = within("tank length", length, 1.0, 1e4, "cm")?;
        let width = within("tank width", width, 1.0, 1e4, "cm")?;
        let height = within("water height", water_height, 1.0, 1e4, "cm")?;
        let uncertainty = within(
            "uncertainty of the tank's dimensions",
            uncertainty,
            0.0,
            10.0,
            "cm",
        )?;
        let faces =
            (length * width).square() + (width * height).square() + (height * length).square();
        let litres = length * width * height / CM3_PER_LITRE;
        let variance = faces * (uncertainty / CM3_PER_LITRE).square();
        self.added(litres, 0.0, variance)
    }

    /// With a vessel of known water volume (sump, reactor, pipes) and its
    /// standard uncertainty.
    ///
    /// # Errors
    /// The total exceeds [`Volume::MAX`].
    pub fn vessel(self, water: Volume, uncertainty: Volume) -> Result<Self> {
        self.added(water.litres(), 0.0, uncertainty.litres().square())
    }

    /// With solids that displace a known volume, and its standard uncertainty;
    /// best measured by the overflow when the solid is lowered into a full bucket.
    ///
    /// # Errors
    /// The total exceeds [`Volume::MAX`].
    pub fn displaced(self, solid: Volume, uncertainty: Volume) -> Result<Self> {
        self.added(0.0, solid.litres(), uncertainty.litres().square())
    }

    /// With rock or sand known by its dry mass in kg and its density in kg/L, and
    /// the standard uncertainty of the volume it displaces.
    ///
    /// With the density of the solid ([`NetVolume::ARAGONITE_KG_PER_L`]) the water
    /// in open pores counts as water; with a bulk density (dry mass over outer
    /// volume) it does not. Rock weighed wet holds water: its mass over 2.93 is
    /// too much.
    ///
    /// # Errors
    /// The mass is not finite or outside 0 to 10⁶ kg, the density not finite or
    /// outside 0.3 to 5 kg/L.
    pub fn solid(
        self,
        dry_mass_kg: f64,
        density_kg_per_l: f64,
        uncertainty: Volume,
    ) -> Result<Self> {
        let mass = within("dry mass of the solid", dry_mass_kg, 0.0, 1e6, "kg")?;
        let density = within("density of the solid", density_kg_per_l, 0.3, 5.0, "kg/L")?;
        self.displaced(Volume::from_litres(mass / density)?, uncertainty)
    }

    /// Net volume of water.
    ///
    /// # Errors
    /// The solids displace as much as the vessels hold, or more.
    pub fn volume(self) -> Result<Volume> {
        if self.displaced_litres >= self.gross_litres {
            return Err(Error::contradictory(
                ("displaced volume", self.displaced_litres),
                ("gross volume", self.gross_litres),
                "the solids would leave no water (litres)",
            ));
        }
        Volume::from_litres(self.gross_litres - self.displaced_litres)
    }

    /// Standard uncertainty of the net volume.
    ///
    /// # Errors
    /// As [`NetVolume::volume`].
    pub fn standard_uncertainty(self) -> Result<Volume> {
        self.volume()?;
        Volume::from_litres(sqrt(self.variance_litres_squared))
    }

    /// Mass of the water at the given density.
    ///
    /// # Errors
    /// As [`NetVolume::volume`], or the mass exceeds [`Mass::MAX`].
    pub fn mass(self, density: Density) -> Result<Mass> {
        self.volume()?.to_mass(density)
    }

    fn added(self, gross: f64, displaced: f64, variance: f64) -> Result<Self> {
        let gross_litres = Volume::from_litres(self.gross_litres + gross)?.litres();
        let displaced_litres = Volume::from_litres(self.displaced_litres + displaced)?.litres();
        Ok(Self {
            gross_litres,
            displaced_litres,
            variance_litres_squared: self.variance_litres_squared + variance,
        })
    }
}
