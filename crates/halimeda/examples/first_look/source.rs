//! What numbers are held against, and who says so.
//!
//! A band without a source is common practice and is printed as such.

/// Tropical reefs today, yearly means, lowest and highest over the world: 21.7 to
/// 29.6 °C, salinity 28.7 to 40.4, up to 4.51 µmol/L nitrate and 0.63 µmol/L
/// phosphate, aragonite saturation from 2.82.
pub(crate) const GUAN_2015: &str =
    "Guan, Y., Hohn, S., Merico, A. (2015) PLoS ONE 10, e0128831, abstract";
pub(crate) const TEMPERATURE_ON_REEFS_CELSIUS: (f64, f64) = (21.7, 29.6);
pub(crate) const SALINITY_ON_REEFS: (f64, f64) = (28.7, 40.4);
pub(crate) const NITRATE_ON_REEFS_UMOL_PER_L: f64 = 4.51;
pub(crate) const PHOSPHATE_ON_REEFS_UMOL_PER_L: f64 = 0.63;
pub(crate) const ARAGONITE_ON_REEFS: f64 = 2.82;

/// 57 species of reef corals grew as fast as in the sea at about 5 µmol/L nitrate
/// and 0.6 µmol/L phosphate. Volume and pages from memory.
pub(crate) const ATKINSON_1995: &str =
    "Atkinson, M. J., Carlson, B., Crow, G. L. (1995) Coral Reefs 14, 215-223, abstract";

/// "In the case of marine animals, a maximum level of 20 mg NO3-N/l may in general
/// be acceptable"; early stages of some invertebrates need far less.
pub(crate) const CAMARGO_2005: &str =
    "Camargo, J. A., Alonso, A., Salamanca, A. (2005) Chemosphere 58, 1255-1267, abstract";
pub(crate) const NITRATE_LIMIT_MG_N_PER_L: f64 = 20.0;

/// Much nitrogen with little phosphate starves the algae in corals of phosphorus;
/// the corals bleach. Pages of the two from memory.
pub(crate) const WIEDENMANN_2013: &str =
    "Wiedenmann, J. et al. (2013) Nat. Clim. Change 3, 160-164, abstract";
pub(crate) const ROSSET_2017: &str =
    "Rosset, S. et al. (2017) Mar. Pollut. Bull. 118, 180-187, abstract";

/// Hypoxia: below 2 mg/L.
pub(crate) const LEVIN_2009: &str =
    "Levin, L. A. et al. (2009) Biogeosciences 6, 2063-2098, abstract";
pub(crate) const HYPOXIA_MG_PER_L: f64 = 2.0;
/// 2 mg/L is below the thresholds of half the species tested.
pub(crate) const VAQUER_SUNYER_2008: &str =
    "Vaquer-Sunyer, R., Duarte, C. M. (2008) PNAS 105, 15452-15457, abstract";

/// Common practice, no source.
pub(crate) const OXYGEN_LOW_PERCENT: f64 = 85.0;
/// Common practice, no source.
pub(crate) const OXYGEN_HIGH_PERCENT: f64 = 115.0;

/// Surface of the open ocean: pH 8.08 on average, 7.77 to 8.35.
pub(crate) const JIANG_2017: &str =
    "Jiang, L.-Q. et al. (2017) ASLO Aquatic Sciences Meeting, Honolulu, abstract 28607";

pub(crate) const PH_TOTAL_OF_OCEANS: (f64, f64) = (7.77, 8.35);

/// Common practice, no source.
pub(crate) const ALKALINITY_PRACTICE_DKH: (f64, f64) = (7.0, 11.0);

/// All buffer factors are smallest where DIC equals alkalinity, near pH 7.5.
pub(crate) const EGLESTON_2010: &str =
    "Egleston, E. S., Sabine, C. L., Morel, F. M. M. (2010) Global Biogeochem. Cycles 24, GB1002";

/// Ions of ocean water, per salinity. Its alkalinity, 2300 µmol/kg at salinity 35,
/// from memory.
pub(crate) const MILLERO_2008: &str = "Millero, F. J. et al. (2008) Deep-Sea Res. I 55, 50-72";
pub(crate) const OCEAN_ALKALINITY_UMOL_PER_KG: f64 = 2300.0;
pub(crate) const OCEAN_SALINITY: f64 = 35.0;

/// Limits of un-ionised ammonia in salt water.
pub(crate) const EPA_1989: &str =
    "US EPA (1989) Water Quality Criteria for Ammonia (Saltwater), EPA 440/5-88-004";

/// Global mean of CO2 in air in 2024: 423.9 ppm, as reports of the bulletin quote it.
pub(crate) const WMO_2025: &str =
    "World Meteorological Organization (2025) Greenhouse Gas Bulletin, CO2 of 2024";

/// C:N:P of plankton 106:16:1, of seaweeds and seagrasses 550:30:1.
pub(crate) const REDFIELD_1958: &str = "Redfield, A. C. (1958) Am. Sci. 46, 205-221";
pub(crate) const ATKINSON_SMITH_1983: &str =
    "Atkinson, M. J., Smith, S. V. (1983) Limnol. Oceanogr. 28, 568-574";

/// Working-day average of CO2 in air, ppm (from memory); a closed room above 1000
/// is badly ventilated (common practice, no source).
pub(crate) const OSHA: &str = "US OSHA, permissible exposure limit of CO2, 5000 ppm over 8 hours";
pub(crate) const STUFFY_ROOM_PPM: f64 = 1000.0;
pub(crate) const WORKPLACE_LIMIT_PPM: f64 = 5000.0;

/// What stands behind the chemistry itself.
pub(crate) const RELATION_NOTE: &str = "The equilibrium constants, the solubilities and the \
    density have their sources in the documentation of the library, in its register of relations.";

/// In the order of the report.
pub(crate) const ALL: &[&str] = &[
    GUAN_2015,
    MILLERO_2008,
    JIANG_2017,
    WMO_2025,
    OSHA,
    EGLESTON_2010,
    LEVIN_2009,
    VAQUER_SUNYER_2008,
    EPA_1989,
    ATKINSON_1995,
    CAMARGO_2005,
    WIEDENMANN_2013,
    ROSSET_2017,
    REDFIELD_1958,
    ATKINSON_SMITH_1983,
];
