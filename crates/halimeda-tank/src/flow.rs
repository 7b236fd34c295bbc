//! The state of a tank and every flow that changes it.
//!
//! The state changes only through flows of fixed stoichiometry. The integrator
//! carries the flows' totals along with the state, with the same weights, so
//! that the change of every state is the sum of what its flows brought, to
//! rounding: the books close because there is no other way to change a state.

/// One number of the state.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[repr(usize)]
pub enum Stock {
    /// Alkalinity of the water, eq.
    Alkalinity,
    /// Inorganic carbon, mol.
    InorganicCarbon,
    /// Dissolved oxygen, mol O2.
    Oxygen,
    /// Ammonium and ammonia, mol.
    Ammonium,
    /// Nitrate, mol.
    Nitrate,
    /// Phosphate, mol.
    Phosphate,
    /// Calcium, mol.
    Calcium,
    /// Magnesium, mol.
    Magnesium,
    /// Strontium, mol.
    Strontium,
    /// Carbon of dissolved organic matter, mol.
    DissolvedOrganicC,
    /// Nitrogen of dissolved organic matter, mol.
    DissolvedOrganicN,
    /// Phosphorus of dissolved organic matter, mol.
    DissolvedOrganicP,
    /// Carbon of detritus, mol.
    DetritusC,
    /// Nitrogen of detritus, mol.
    DetritusN,
    /// Phosphorus of detritus, mol.
    DetritusP,
    /// Carbon of ingested food, mol.
    GutC,
    /// Nitrogen of ingested food, mol.
    GutN,
    /// Phosphorus of ingested food, mol.
    GutP,
    /// Dosed organic carbon not yet used, mol.
    DosedC,
    /// Carbon of bacteria grown on dosed carbon, mol.
    BacteriaC,
    /// Phosphorus on iron-oxide medium, mol.
    MediumP,
    /// Water, kg.
    Water,
    /// Sea salt: practical salinity times water, kg.
    Salt,
    /// Carbon of turf, mol.
    TurfC,
    /// Nitrogen of turf, mol.
    TurfN,
    /// Phosphorus of turf, mol.
    TurfP,
    /// Share of the screen that carries turf.
    Cover,
    /// Reserve of the turf's holdfast layer, 0 to 1.
    Reserve,
}

macro_rules! flows {
    ($( $(#[$doc:meta])* $name:ident => $process:ident; )*) => {
        /// A flow: an amount per day while integrating, an amount in the ledger.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        #[repr(usize)]
        pub(crate) enum Flow { $( $(#[$doc])* $name, )* }

        impl Flow {
            /// All flows, in order.
            pub(crate) const ALL: &'static [Self] = &[ $( Self::$name, )* ];
            /// How many flows there are.
            pub(crate) const COUNT: usize = Self::ALL.len();

            /// The process the flow belongs to.
            pub(crate) const fn process(self) -> Process {
                match self { $( Self::$name => Process::$process, )* }
            }
        }
    };
}

/// A process of the ledger.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[repr(usize)]
pub enum Process {
    /// Gas exchange at the open surface.
    SurfaceExchange,
    /// Gas exchange in the overflow.
    OverflowExchange,
    /// Gas exchange of the film on the screen.
    FilmExchange,
    /// Gas exchange in the foam fractionator.
    FoamExchange,
    /// Feeding.
    Feeding,
    /// What fed animals excrete, respire, drop and keep.
    Livestock,
    /// Mineralisation of detritus and dissolved organic matter.
    Mineralisation,
    /// Nitrification.
    Nitrification,
    /// Denitrification.
    Denitrification,
    /// Iron-oxide medium.
    Medium,
    /// What the foam fractionator takes out.
    FoamFractionation,
    /// Bacteria on dosed carbon.
    Bacteria,
    /// Growth of the turf: photosynthesis, respiration, exudation, uptake.
    Turf,
    /// Turf let go by the screen.
    TurfLoss,
    /// Harvest, with what is fed back.
    Harvest,
    /// Corals' calcification.
    CoralCalcification,
    /// Coralline algae's calcification.
    CorallineCalcification,
    /// Photosynthesis and respiration of the display.
    Display,
    /// Evaporation and top-off.
    Evaporation,
    /// Dosing.
    Dosing,
    /// Water changes.
    WaterChange,
    /// New screens and media.
    Parts,
}

impl Stock {
    /// All of them, in order.
    pub const ALL: &'static [Self] = &[
        Self::Alkalinity,
        Self::InorganicCarbon,
        Self::Oxygen,
        Self::Ammonium,
        Self::Nitrate,
        Self::Phosphate,
        Self::Calcium,
        Self::Magnesium,
        Self::Strontium,
        Self::DissolvedOrganicC,
        Self::DissolvedOrganicN,
        Self::DissolvedOrganicP,
        Self::DetritusC,
        Self::DetritusN,
        Self::DetritusP,
        Self::GutC,
        Self::GutN,
        Self::GutP,
        Self::DosedC,
        Self::BacteriaC,
        Self::MediumP,
        Self::Water,
        Self::Salt,
        Self::TurfC,
        Self::TurfN,
        Self::TurfP,
        Self::Cover,
        Self::Reserve,
    ];
    /// How many there are.
    pub const COUNT: usize = Self::ALL.len();

    /// Name for tables and errors.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Alkalinity => "alkalinity",
            Self::InorganicCarbon => "inorganic carbon",
            Self::Oxygen => "oxygen",
            Self::Ammonium => "ammonium",
            Self::Nitrate => "nitrate",
            Self::Phosphate => "phosphate",
            Self::Calcium => "calcium",
            Self::Magnesium => "magnesium",
            Self::Strontium => "strontium",
            Self::DissolvedOrganicC => "dissolved organic carbon",
            Self::DissolvedOrganicN => "dissolved organic nitrogen",
            Self::DissolvedOrganicP => "dissolved organic phosphorus",
            Self::DetritusC => "carbon of detritus",
            Self::DetritusN => "nitrogen of detritus",
            Self::DetritusP => "phosphorus of detritus",
            Self::GutC => "carbon of ingested food",
            Self::GutN => "nitrogen of ingested food",
            Self::GutP => "phosphorus of ingested food",
            Self::DosedC => "dosed organic carbon",
            Self::BacteriaC => "carbon of bacteria",
            Self::MediumP => "phosphorus on iron-oxide medium",
            Self::Water => "water",
            Self::Salt => "salt",
            Self::TurfC => "carbon of turf",
            Self::TurfN => "nitrogen of turf",
            Self::TurfP => "phosphorus of turf",
            Self::Cover => "cover of the screen",
            Self::Reserve => "reserve of the turf",
        }
    }

    /// Unit; "1" for a share.
    #[must_use]
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Alkalinity => "eq",
            Self::Water | Self::Salt => "kg",
            Self::Cover | Self::Reserve => "1",
            _ => "mol",
        }
    }

    /// Dissolved in the water, so that a water change replaces its share.
    pub(crate) const fn is_dissolved(self) -> bool {
        (self as usize) <= (Self::DissolvedOrganicP as usize)
            || matches!(self, Self::DosedC | Self::BacteriaC)
    }
}

impl Process {
    /// All of them, in order.
    pub const ALL: &'static [Self] = &[
        Self::SurfaceExchange,
        Self::OverflowExchange,
        Self::FilmExchange,
        Self::FoamExchange,
        Self::Feeding,
        Self::Livestock,
        Self::Mineralisation,
        Self::Nitrification,
        Self::Denitrification,
        Self::Medium,
        Self::FoamFractionation,
        Self::Bacteria,
        Self::Turf,
        Self::TurfLoss,
        Self::Harvest,
        Self::CoralCalcification,
        Self::CorallineCalcification,
        Self::Display,
        Self::Evaporation,
        Self::Dosing,
        Self::WaterChange,
        Self::Parts,
    ];
    /// How many there are.
    pub const COUNT: usize = Self::ALL.len();

    /// Name for tables.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::SurfaceExchange => "gas exchange, surface",
            Self::OverflowExchange => "gas exchange, overflow",
            Self::FilmExchange => "gas exchange, screen film",
            Self::FoamExchange => "gas exchange, foam fractionator",
            Self::Feeding => "feeding",
            Self::Livestock => "livestock",
            Self::Mineralisation => "mineralisation",
            Self::Nitrification => "nitrification",
            Self::Denitrification => "denitrification",
            Self::Medium => "iron-oxide medium",
            Self::FoamFractionation => "foam fractionation",
            Self::Bacteria => "bacteria on dosed carbon",
            Self::Turf => "turf growth",
            Self::TurfLoss => "turf let go",
            Self::Harvest => "harvest",
            Self::CoralCalcification => "coral calcification",
            Self::CorallineCalcification => "coralline calcification",
            Self::Display => "display",
            Self::Evaporation => "evaporation and top-off",
            Self::Dosing => "dosing",
            Self::WaterChange => "water change",
            Self::Parts => "new parts",
        }
    }

    /// Whether elements cross the boundary of the tank in this process; in all
    /// others what leaves one stock enters another.
    #[must_use]
    pub const fn crosses_boundary(self) -> bool {
        !matches!(
            self,
            Self::Mineralisation
                | Self::Nitrification
                | Self::Medium
                | Self::Bacteria
                | Self::Turf
                | Self::TurfLoss
        )
    }
}

flows! {
    SurfaceCo2 => SurfaceExchange;
    SurfaceO2 => SurfaceExchange;
    OverflowCo2 => OverflowExchange;
    OverflowO2 => OverflowExchange;
    FilmCo2 => FilmExchange;
    FilmO2 => FilmExchange;
    FoamCo2 => FoamExchange;
    FoamO2 => FoamExchange;
    ExcretionN => Livestock;
    ExcretionP => Livestock;
    LivestockRespiration => Livestock;
    FaecesC => Livestock;
    FaecesN => Livestock;
    FaecesP => Livestock;
    RetentionC => Livestock;
    RetentionN => Livestock;
    RetentionP => Livestock;
    FastingC => Livestock;
    FastingN => Livestock;
    DetritusToDic => Mineralisation;
    DetritusToAmmonium => Mineralisation;
    DetritusToPhosphate => Mineralisation;
    DissolvedToDic => Mineralisation;
    DissolvedToAmmonium => Mineralisation;
    DissolvedToPhosphate => Mineralisation;
    Nitrified => Nitrification;
    Denitrified => Denitrification;
    BoundP => Medium;
    FoamDissolvedC => FoamFractionation;
    FoamDissolvedN => FoamFractionation;
    FoamDissolvedP => FoamFractionation;
    FoamDetritusC => FoamFractionation;
    FoamDetritusN => FoamFractionation;
    FoamDetritusP => FoamFractionation;
    FoamBacteria => FoamFractionation;
    BacteriaGrowth => Bacteria;
    BacteriaRespiration => Bacteria;
    BacteriaOxygen => Bacteria;
    BacteriaAmmonium => Bacteria;
    BacteriaNitrate => Bacteria;
    BacteriaPhosphate => Bacteria;
    BacteriaDeath => Bacteria;
    TurfFixation => Turf;
    TurfExudation => Turf;
    TurfRespiration => Turf;
    TurfNitrate => Turf;
    TurfAmmonium => Turf;
    TurfPhosphate => Turf;
    TurfLostC => TurfLoss;
    TurfLostN => TurfLoss;
    TurfLostP => TurfLoss;
    CoverChange => Turf;
    ReserveChange => Turf;
    CoralCarbonate => CoralCalcification;
    CoralMagnesium => CoralCalcification;
    CoralStrontium => CoralCalcification;
    CorallineCarbonate => CorallineCalcification;
    CorallineMagnesium => CorallineCalcification;
    CorallineStrontium => CorallineCalcification;
    DisplayFixation => Display;
    DisplayRespiration => Display;
    Evaporated => Evaporation;
    ToppedOff => Evaporation;
    Limewater => Dosing;
    Bicarbonate => Dosing;
    Carbonate => Dosing;
    Hydroxide => Dosing;
    CalciumChloride => Dosing;
    MagnesiumSalt => Dosing;
    NitrateSalt => Dosing;
    PhosphateSalt => Dosing;
    OrganicCarbon => Dosing;
    ReactorCarbonate => Dosing;
    ReactorCo2 => Dosing;
}

/// Ratios in the stoichiometry that are parameters of a tank.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Ratios {
    /// O2 per carbon fixed or respired at the oxidation state of ammonium.
    pub(crate) oxygen_per_carbon: f64,
    /// Nitrogen per carbon of bacteria.
    pub(crate) bacteria_n_per_c: f64,
    /// Phosphorus per carbon of bacteria.
    pub(crate) bacteria_p_per_c: f64,
}

/// O2 freed beyond that of ammonium-grown tissue per nitrate reduced: NO3⁻ +
/// H2O + 2 H⁺ → NH4⁺ + 2 O2.
const OXYGEN_PER_NITRATE: f64 = 2.0;

/// Electrons that a nitrate denitrified takes up, in O2: 4 NO3⁻ + 4 H⁺ → 2 N2 + 2
/// H2O + 5 O2. The carbon they come from is oxidised at the tank's own O2 per carbon.
const OXYGEN_PER_DENITRIFIED: f64 = 1.25;

/// Practical salinity of a gram of salt in a kilogram of seawater: 35 per 35.16504
/// g/kg (Millero et al. 2008, doi 10.1016/j.dsr.2007.10.001). Dosed salts are
/// counted by their mass, of which molar masses in g/mol stand below.
pub(crate) const SALINITY_PER_GRAM_PER_KG: f64 = 35.0 / 35.16504;

/// The change of every stock that the flows make.
///
/// Alkalinity per mole: Wolf-Gladrow et al. (2007) Mar. Chem. 106, 287-300, doi
/// 10.1016/j.marchem.2007.01.006; oxygen: Laws (1991) Deep-Sea Res. 38, 143-167,
/// doi 10.1016/0198-0149(91)90059-O.
#[inline]
pub(crate) fn change_of_stocks(
    flows: &[f64; Flow::COUNT],
    ratios: &Ratios,
    change: &mut [f64; Stock::COUNT],
) {
    use Stock as S;
    // An index is a variant of the enum the array is sized by.
    #[allow(clippy::indexing_slicing)]
    let f = |flow: Flow| flows[flow as usize];
    let mut set = |stock: Stock, value: f64| {
        #[allow(clippy::indexing_slicing)]
        {
            change[stock as usize] = value;
        }
    };

    let carbonate_minerals = f(Flow::CoralCarbonate) + f(Flow::CorallineCarbonate);
    let magnesium_minerals = f(Flow::CoralMagnesium) + f(Flow::CorallineMagnesium);
    let strontium_minerals = f(Flow::CoralStrontium) + f(Flow::CorallineStrontium);
    let mineralised_c = f(Flow::DetritusToDic) + f(Flow::DissolvedToDic);
    let mineralised_n = f(Flow::DetritusToAmmonium) + f(Flow::DissolvedToAmmonium);
    let mineralised_p = f(Flow::DetritusToPhosphate) + f(Flow::DissolvedToPhosphate);
    let nitrate_uptake = f(Flow::TurfNitrate) + f(Flow::BacteriaNitrate);
    let ammonium_uptake = f(Flow::TurfAmmonium) + f(Flow::BacteriaAmmonium);
    let phosphate_uptake = f(Flow::TurfPhosphate) + f(Flow::BacteriaPhosphate) + f(Flow::BoundP);
    let fixation = f(Flow::TurfFixation) + f(Flow::DisplayFixation);
    let respiration = f(Flow::LivestockRespiration)
        + f(Flow::FastingC)
        + mineralised_c
        + f(Flow::BacteriaRespiration)
        + f(Flow::TurfRespiration)
        + f(Flow::DisplayRespiration);
    let released_n = f(Flow::ExcretionN) + f(Flow::FastingN) + mineralised_n;
    let released_p = f(Flow::ExcretionP) + mineralised_p;
    let reactor = f(Flow::ReactorCarbonate);
    let denitrified_c = OXYGEN_PER_DENITRIFIED / ratios.oxygen_per_carbon * f(Flow::Denitrified);

    set(
        S::Alkalinity,
        nitrate_uptake - ammonium_uptake + phosphate_uptake + released_n
            - released_p
            - 2.0 * f(Flow::Nitrified)
            + f(Flow::Denitrified)
            - 2.0 * carbonate_minerals
            + f(Flow::Bicarbonate)
            + 2.0 * f(Flow::Carbonate)
            + f(Flow::Hydroxide)
            + 2.0 * f(Flow::Limewater)
            + 2.0 * reactor,
    );
    set(
        S::InorganicCarbon,
        f(Flow::SurfaceCo2)
            + f(Flow::OverflowCo2)
            + f(Flow::FilmCo2)
            + f(Flow::FoamCo2)
            + respiration
            - fixation
            + denitrified_c
            - carbonate_minerals
            + f(Flow::Bicarbonate)
            + f(Flow::Carbonate)
            + reactor
            + f(Flow::ReactorCo2),
    );
    set(
        S::Oxygen,
        f(Flow::SurfaceO2)
            + f(Flow::OverflowO2)
            + f(Flow::FilmO2)
            + f(Flow::FoamO2)
            + ratios.oxygen_per_carbon
                * (fixation + f(Flow::BacteriaRespiration) - respiration)
            // Dosed carbon is not at the oxidation state of food.
            - f(Flow::BacteriaOxygen)
            + OXYGEN_PER_NITRATE * (nitrate_uptake - f(Flow::Nitrified)),
    );
    set(
        S::Ammonium,
        released_n - ammonium_uptake - f(Flow::Nitrified),
    );
    set(
        S::Nitrate,
        f(Flow::Nitrified) - f(Flow::Denitrified) - nitrate_uptake + f(Flow::NitrateSalt),
    );
    set(
        S::Phosphate,
        released_p - phosphate_uptake + f(Flow::PhosphateSalt),
    );
    set(
        S::Calcium,
        magnesium_minerals + strontium_minerals - carbonate_minerals
            + f(Flow::Limewater)
            + f(Flow::CalciumChloride)
            + reactor,
    );
    set(S::Magnesium, f(Flow::MagnesiumSalt) - magnesium_minerals);
    set(S::Strontium, -strontium_minerals);
    let death = f(Flow::BacteriaDeath);
    set(
        S::DissolvedOrganicC,
        f(Flow::TurfExudation) + death - f(Flow::DissolvedToDic) - f(Flow::FoamDissolvedC),
    );
    set(
        S::DissolvedOrganicN,
        death * ratios.bacteria_n_per_c - f(Flow::DissolvedToAmmonium) - f(Flow::FoamDissolvedN),
    );
    set(
        S::DissolvedOrganicP,
        death * ratios.bacteria_p_per_c - f(Flow::DissolvedToPhosphate) - f(Flow::FoamDissolvedP),
    );
    set(
        S::DetritusC,
        f(Flow::FaecesC) + f(Flow::TurfLostC)
            - f(Flow::DetritusToDic)
            - denitrified_c
            - f(Flow::FoamDetritusC),
    );
    set(
        S::DetritusN,
        f(Flow::FaecesN) + f(Flow::TurfLostN)
            - f(Flow::DetritusToAmmonium)
            - f(Flow::FoamDetritusN),
    );
    set(
        S::DetritusP,
        f(Flow::FaecesP) + f(Flow::TurfLostP)
            - f(Flow::DetritusToPhosphate)
            - f(Flow::FoamDetritusP),
    );
    set(
        S::GutC,
        -f(Flow::LivestockRespiration) - f(Flow::FaecesC) - f(Flow::RetentionC),
    );
    set(
        S::GutN,
        -f(Flow::ExcretionN) - f(Flow::FaecesN) - f(Flow::RetentionN),
    );
    set(
        S::GutP,
        -f(Flow::ExcretionP) - f(Flow::FaecesP) - f(Flow::RetentionP),
    );
    set(
        S::DosedC,
        f(Flow::OrganicCarbon) - f(Flow::BacteriaGrowth) - f(Flow::BacteriaRespiration),
    );
    set(
        S::BacteriaC,
        f(Flow::BacteriaGrowth) - death - f(Flow::FoamBacteria),
    );
    set(S::MediumP, f(Flow::BoundP));
    set(S::Water, f(Flow::ToppedOff) - f(Flow::Evaporated));
    set(
        S::Salt,
        SALINITY_PER_GRAM_PER_KG
            * (84.01 * f(Flow::Bicarbonate)
                + 105.99 * f(Flow::Carbonate)
                + 40.00 * f(Flow::Hydroxide)
                + 74.09 * f(Flow::Limewater)
                + 110.98 * f(Flow::CalciumChloride)
                + 95.21 * f(Flow::MagnesiumSalt)
                + 84.99 * f(Flow::NitrateSalt)
                + 119.98 * f(Flow::PhosphateSalt)
                + 100.09 * (reactor - carbonate_minerals)),
    );
    set(
        S::TurfC,
        f(Flow::TurfFixation)
            - f(Flow::TurfExudation)
            - f(Flow::TurfRespiration)
            - f(Flow::TurfLostC),
    );
    set(
        S::TurfN,
        f(Flow::TurfNitrate) + f(Flow::TurfAmmonium) - f(Flow::TurfLostN),
    );
    set(S::TurfP, f(Flow::TurfPhosphate) - f(Flow::TurfLostP));
    set(S::Cover, f(Flow::CoverChange));
    set(S::Reserve, f(Flow::ReserveChange));
}

/// An element that is conserved.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Element {
    /// Carbon.
    Carbon,
    /// Nitrogen.
    Nitrogen,
    /// Phosphorus.
    Phosphorus,
    /// Calcium.
    Calcium,
    /// Magnesium.
    Magnesium,
    /// Strontium.
    Strontium,
}

impl Element {
    /// All of them.
    pub const ALL: [Self; 6] = [
        Self::Carbon,
        Self::Nitrogen,
        Self::Phosphorus,
        Self::Calcium,
        Self::Magnesium,
        Self::Strontium,
    ];

    /// Name for tables.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Carbon => "carbon",
            Self::Nitrogen => "nitrogen",
            Self::Phosphorus => "phosphorus",
            Self::Calcium => "calcium",
            Self::Magnesium => "magnesium",
            Self::Strontium => "strontium",
        }
    }

    /// Moles of the element per unit of a stock.
    pub(crate) fn per_unit(self, stock: Stock, ratios: &Ratios) -> f64 {
        use Stock as S;
        match (self, stock) {
            (
                Self::Carbon,
                S::InorganicCarbon
                | S::DissolvedOrganicC
                | S::DetritusC
                | S::GutC
                | S::DosedC
                | S::BacteriaC
                | S::TurfC,
            )
            | (
                Self::Nitrogen,
                S::Ammonium | S::Nitrate | S::DissolvedOrganicN | S::DetritusN | S::GutN | S::TurfN,
            )
            | (
                Self::Phosphorus,
                S::Phosphate
                | S::DissolvedOrganicP
                | S::DetritusP
                | S::GutP
                | S::MediumP
                | S::TurfP,
            )
            | (Self::Calcium, S::Calcium)
            | (Self::Magnesium, S::Magnesium)
            | (Self::Strontium, S::Strontium) => 1.0,
            (Self::Nitrogen, S::BacteriaC) => ratios.bacteria_n_per_c,
            (Self::Phosphorus, S::BacteriaC) => ratios.bacteria_p_per_c,
            _ => 0.0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const RATIOS: Ratios = Ratios {
        oxygen_per_carbon: 1.1,
        bacteria_n_per_c: 0.17,
        bacteria_p_per_c: 0.012,
    };

    /// One unit of a flow.
    fn effect(flow: Flow) -> [f64; Stock::COUNT] {
        let mut flows = [0.0; Flow::COUNT];
        flows[flow as usize] = 1.0;
        let mut change = [0.0; Stock::COUNT];
        change_of_stocks(&flows, &RATIOS, &mut change);
        change
    }

    #[test]
    fn stocks_and_processes_are_listed_in_their_order() {
        for (i, &s) in Stock::ALL.iter().enumerate() {
            assert_eq!(s as usize, i);
        }
        for (i, &p) in Process::ALL.iter().enumerate() {
            assert_eq!(p as usize, i);
        }
    }

    /// What stays within the tank leaves no element behind and makes none. The
    /// bacteria's growth and uptake are flows apart, so they are weighed together.
    #[test]
    fn inner_processes_conserve_every_element() {
        for &flow in Flow::ALL {
            let one = effect(flow);
            let sum = |element: Element| -> f64 {
                Stock::ALL
                    .iter()
                    .map(|&s| one[s as usize] * element.per_unit(s, &RATIOS))
                    .sum()
            };
            let split = matches!(
                flow,
                Flow::BacteriaGrowth
                    | Flow::BacteriaAmmonium
                    | Flow::BacteriaNitrate
                    | Flow::BacteriaPhosphate
            );
            if !flow.process().crosses_boundary() && !split {
                for element in Element::ALL {
                    assert!(sum(element).abs() < 1e-15, "{flow:?} {element:?}");
                }
            }
            // Denitrification loses nitrogen as gas, and no carbon.
            if flow == Flow::Denitrified {
                assert_eq!(sum(Element::Nitrogen), -1.0);
                assert!(sum(Element::Carbon).abs() < 1e-15);
            }
        }
        let grown = effect(Flow::BacteriaGrowth);
        let nitrate = effect(Flow::BacteriaNitrate);
        let phosphate = effect(Flow::BacteriaPhosphate);
        for element in Element::ALL {
            let sum: f64 = Stock::ALL
                .iter()
                .map(|&s| {
                    let i = s as usize;
                    (grown[i]
                        + RATIOS.bacteria_n_per_c * nitrate[i]
                        + RATIOS.bacteria_p_per_c * phosphate[i])
                        * element.per_unit(s, &RATIOS)
                })
                .sum();
            assert!(sum.abs() < 1e-15, "{element:?}");
        }
    }

    /// Alkalinity follows the charge of the ions that do not change with pH: the
    /// explicit conservative expression of Wolf-Gladrow et al. (2007), eq. 32.
    #[test]
    fn alkalinity_follows_the_conservative_ions() {
        for &flow in Flow::ALL {
            let e = effect(flow);
            let of = |s: Stock| e[s as usize];
            // Dosed salts bring counter-ions that are no stocks.
            let counter_ions = match flow {
                Flow::CalciumChloride | Flow::MagnesiumSalt => -2.0,
                Flow::Bicarbonate | Flow::Hydroxide | Flow::NitrateSalt | Flow::PhosphateSalt => {
                    1.0
                }
                Flow::Carbonate => 2.0,
                _ => 0.0,
            };
            let expected = 2.0 * (of(Stock::Calcium) + of(Stock::Magnesium) + of(Stock::Strontium))
                + of(Stock::Ammonium)
                - of(Stock::Nitrate)
                - of(Stock::Phosphate)
                + counter_ions;
            assert!(
                (of(Stock::Alkalinity) - expected).abs() < 1e-15,
                "{flow:?}: {} for {expected}",
                of(Stock::Alkalinity)
            );
        }
    }

    /// Food respired on ammonium and grown back to turf returns its oxygen.
    #[test]
    fn oxygen_closes_over_a_cycle() {
        let cycle = |flows: &[Flow]| -> f64 {
            flows
                .iter()
                .map(|&f| effect(f)[Stock::Oxygen as usize])
                .sum()
        };
        assert!(cycle(&[Flow::TurfFixation, Flow::TurfRespiration]).abs() < 1e-15);
        // Nitrified and taken up again as nitrate: what one takes the other gives.
        assert!(cycle(&[Flow::Nitrified, Flow::TurfNitrate]).abs() < 1e-15);
    }

    /// The same book that the chemistry keeps of each process on its own.
    #[test]
    fn flows_agree_with_the_alkalinity_book_of_the_chemistry() {
        use halimeda::nutrient::{PhotosyntheticQuotient, Process as Reaction};
        let quotient = PhotosyntheticQuotient::new(RATIOS.oxygen_per_carbon).unwrap();
        for (flow, reaction) in [
            (Flow::TurfFixation, Reaction::Photosynthesis(quotient)),
            (
                Flow::DisplayRespiration,
                Reaction::CarbonMineralisation(quotient),
            ),
            (
                Flow::DetritusToDic,
                Reaction::CarbonMineralisation(quotient),
            ),
            (Flow::TurfNitrate, Reaction::NitrateUptake),
            (Flow::TurfAmmonium, Reaction::AmmoniumUptake),
            (Flow::TurfPhosphate, Reaction::PhosphateUptake),
            (Flow::ExcretionN, Reaction::NitrogenMineralisation),
            (
                Flow::DetritusToPhosphate,
                Reaction::PhosphorusMineralisation,
            ),
            (Flow::Nitrified, Reaction::Nitrification),
            (Flow::Denitrified, Reaction::Denitrification(quotient)),
        ] {
            let e = effect(flow);
            let book = reaction.stoichiometry();
            for (stock, expected) in [
                (Stock::Alkalinity, book.alkalinity()),
                (Stock::InorganicCarbon, book.inorganic_carbon),
                (Stock::Oxygen, book.oxygen),
                (Stock::Ammonium, book.ammonia),
                (Stock::Nitrate, book.nitrate),
                (Stock::Phosphate, book.phosphate),
            ] {
                let here = e[stock as usize];
                assert!(
                    (here - expected).abs() < 1e-15,
                    "{flow:?} {stock:?}: {here} for {expected}"
                );
            }
        }
    }
}
