//! Nutrients: forms and units of kits, ammonia, ratios, alkalinity of processes.
//!
//! A kit's number becomes a [`KitReading`], which carries what the kit can and
//! cannot tell, and then a [`ContentEstimate`] in moles, from which
//! [`unionised_ammonia`], [`dissolved_inorganic_nitrogen`] and
//! [`NitrogenToPhosphorus`] follow. [`Process`] is the alkalinity book: what a
//! mole of nitrification, calcification or growth does to the water.
//!
//! ```
//! use halimeda::nutrient::{KitPrecision, KitReading};
//! use halimeda::{Concentration, Density, form};
//! let density = Density::from_kg_per_m3(1023.34)?;
//! // A photometer that shows steps of 0.01 mg/L PO4 and is good to 0.02 mg/L or 4 %.
//! let photometer = KitPrecision::new(
//!     Concentration::<form::PhosphateAsPo4>::from_mg_per_l(0.01)?,
//!     Concentration::from_mg_per_l(0.02)?,
//!     0.04,
//! )?;
//! let shown = Concentration::from_mg_per_l(0.08)?;
//! let phosphate = KitReading::measured(shown, &photometer)?.estimate(density)?;
//! assert!((phosphate.content().umol_per_kg() - 0.823).abs() < 1e-3);
//! assert!((phosphate.standard_uncertainty().umol_per_kg() - 0.211).abs() < 1e-3);
//! # Ok::<(), halimeda::Error>(())
//! ```
//!
//! # Mix-ups that do not compile
//! Each of these is a mistake readings are known for. The first line of each
//! pair of examples differs from the second in the type only.
//!
//! Nitrate weighed as NO3 taken for nitrate weighed as nitrogen, a factor of 4.4:
//!
//! ```
//! # use halimeda::{Concentration, form};
//! let no3: Concentration<form::NitrateAsNo3> = Concentration::from_mg_per_l(5.0)?;
//! let no3_n: Concentration<form::NitrateAsN> = no3.counted_as();
//! # Ok::<(), halimeda::Error>(())
//! ```
//! ```compile_fail,E0308
//! # use halimeda::{Concentration, form};
//! let no3: Concentration<form::NitrateAsNo3> = Concentration::from_mg_per_l(5.0)?;
//! let no3_n: Concentration<form::NitrateAsN> = no3;
//! # Ok::<(), halimeda::Error>(())
//! ```
//!
//! Phosphate weighed as PO4 taken for phosphorus, a factor of 3.1:
//!
//! ```
//! # use halimeda::{Concentration, form};
//! let po4: Concentration<form::PhosphateAsPo4> = Concentration::from_mg_per_l(0.1)?;
//! let p: Concentration<form::PhosphateAsP> = po4.counted_as();
//! # Ok::<(), halimeda::Error>(())
//! ```
//! ```compile_fail,E0308
//! # use halimeda::{Concentration, form};
//! let po4: Concentration<form::PhosphateAsPo4> = Concentration::from_mg_per_l(0.1)?;
//! let p: Concentration<form::PhosphateAsP> = po4;
//! # Ok::<(), halimeda::Error>(())
//! ```
//!
//! Total ammonia taken for the un-ionised ammonia the limits are set on, a
//! factor of about 15 in a reef tank:
//!
//! ```
//! # use halimeda::{Content, species, nutrient::AmmoniaVerdict, Concentration, Density, form};
//! # let density = Density::from_kg_per_m3(1023.34)?;
//! let nh3: Content<species::UnionisedAmmonia> = Content::from_umol_per_kg(1.0)?;
//! let verdict = AmmoniaVerdict::of(nh3.to_concentration(density));
//! # Ok::<(), halimeda::Error>(())
//! ```
//! ```compile_fail,E0271
//! # use halimeda::{Content, species, nutrient::AmmoniaVerdict, Concentration, Density, form};
//! # let density = Density::from_kg_per_m3(1023.34)?;
//! let total: Content<species::TotalAmmonia> = Content::from_umol_per_kg(1.0)?;
//! let verdict = AmmoniaVerdict::of(total.to_concentration(density));
//! # Ok::<(), halimeda::Error>(())
//! ```
//! ```compile_fail,E0308
//! # use halimeda::{Content, species};
//! let total: Content<species::TotalAmmonia> = Content::from_umol_per_kg(1.0)?;
//! let nh3: Content<species::UnionisedAmmonia> = total;
//! # Ok::<(), halimeda::Error>(())
//! ```
//!
//! Calcium weighed as CaCO3 taken for calcium, a factor of 2.5:
//!
//! ```
//! # use halimeda::{Concentration, form};
//! let hardness: Concentration<form::CalciumAsCaco3> = Concentration::from_mg_per_l(1050.0)?;
//! let calcium: Concentration<form::CalciumAsCa> = hardness.counted_as();
//! # Ok::<(), halimeda::Error>(())
//! ```
//! ```compile_fail,E0308
//! # use halimeda::{Concentration, form};
//! let hardness: Concentration<form::CalciumAsCaco3> = Concentration::from_mg_per_l(1050.0)?;
//! let calcium: Concentration<form::CalciumAsCa> = hardness;
//! # Ok::<(), halimeda::Error>(())
//! ```
//!
//! A mass per litre taken for an amount per kilogram:
//!
//! ```
//! # use halimeda::{Concentration, Content, Density, form, species};
//! # let density = Density::from_kg_per_m3(1023.34)?;
//! let kit: Concentration<form::NitrateAsNo3> = Concentration::from_mg_per_l(5.0)?;
//! let nitrate: Content<species::Nitrate> = kit.to_content(density);
//! # Ok::<(), halimeda::Error>(())
//! ```
//! ```compile_fail,E0308
//! # use halimeda::{Concentration, Content, Density, form, species};
//! # let density = Density::from_kg_per_m3(1023.34)?;
//! let kit: Concentration<form::NitrateAsNo3> = Concentration::from_mg_per_l(5.0)?;
//! let nitrate: Content<species::Nitrate> = kit;
//! # Ok::<(), halimeda::Error>(())
//! ```
//!
//! A pH of NBS buffers taken for one on the total scale, 0.13 apart:
//!
//! ```
//! # use halimeda::{Content, Ph, PracticalSalinity, Temperature, TotalScale, NbsScale, Water};
//! # use halimeda::nutrient::unionised_ammonia;
//! # let water = Water::new(Temperature::from_celsius(25.0)?, PracticalSalinity::new(35.0)?);
//! # let total = Content::from_umol_per_kg(1.0)?;
//! let ph: Ph<TotalScale> = Ph::new(8.1)?;
//! unionised_ammonia(&water, ph, total)?;
//! # Ok::<(), halimeda::Error>(())
//! ```
//! ```compile_fail,E0308
//! # use halimeda::{Content, Ph, PracticalSalinity, Temperature, TotalScale, NbsScale, Water};
//! # use halimeda::nutrient::unionised_ammonia;
//! # let water = Water::new(Temperature::from_celsius(25.0)?, PracticalSalinity::new(35.0)?);
//! # let total = Content::from_umol_per_kg(1.0)?;
//! let ph: Ph<NbsScale> = Ph::new(8.1)?;
//! unionised_ammonia(&water, ph, total)?;
//! # Ok::<(), halimeda::Error>(())
//! ```

mod ammonia;
mod estimate;
mod process;
mod ratio;
mod reading;

pub use ammonia::{AmmoniaVerdict, UnionisedAmmonia, unionised_ammonia};
pub use estimate::{ContentEstimate, ContentInterval, dissolved_inorganic_nitrogen};
pub use process::{CarbonateComposition, PhotosyntheticQuotient, Process, Stoichiometry};
pub use ratio::{ElementalRatio, NitrogenToPhosphorus, NutrientBalance};
pub use reading::{KitPrecision, KitReading, KitReadingKind};
