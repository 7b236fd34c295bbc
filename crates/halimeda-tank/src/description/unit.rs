use halimeda::quantity::{Form as _, form};
use halimeda::{AirPressure, Alkalinity, Concentration, Content, Density, Volume, species};

/// What some units need to know of what they measure.
#[derive(Debug, Clone, Copy, Default)]
pub struct Medium {
    /// Density, unless temperature or salinity are wrong.
    pub density: Option<Density>,
    /// Oxygen content at saturation, µmol/kg.
    pub saturated_oxygen_umol_per_kg: Option<f64>,
    /// Molar mass of what is weighed.
    pub grams_per_mol: Option<f64>,
}

/// A unit: `(number + shift) * factor` is the quantity in its measure's own unit.
#[derive(Debug, Clone, Copy)]
pub struct Unit {
    pub(crate) name: &'static str,
    shift: f64,
    /// None where what it depends on is not known.
    factor: fn(&Medium) -> Option<f64>,
}

/// A kind of quantity: how it is called, the unit it is kept in and those it is
/// accepted in, the usual one first.
#[derive(Debug)]
pub struct Measure {
    pub(crate) name: &'static str,
    pub(crate) kept_in: &'static str,
    pub(crate) units: &'static [Unit],
}

impl Unit {
    /// Its usual spelling; empty for a bare number.
    #[must_use]
    pub const fn name(&self) -> &'static str {
        self.name
    }

    /// The quantity in the measure's own unit. None where what the unit depends
    /// on is not in `medium`.
    #[must_use]
    pub fn to_kept(self, number: f64, medium: &Medium) -> Option<f64> {
        Some((number + self.shift) * (self.factor)(medium)?)
    }

    /// The number of this unit that makes a quantity. None as for
    /// [`Unit::to_kept`].
    #[must_use]
    pub fn of_kept(self, kept: f64, medium: &Medium) -> Option<f64> {
        Some(kept / (self.factor)(medium)? - self.shift)
    }
}

impl Measure {
    /// What it is called in messages.
    #[must_use]
    pub const fn name(&self) -> &'static str {
        self.name
    }

    /// Name of the unit it is kept in; empty for a bare number.
    #[must_use]
    pub const fn kept_in(&self) -> &'static str {
        self.kept_in
    }

    /// The unit of a name, in any usual spelling.
    #[must_use]
    pub fn unit(&self, name: &str) -> Option<&'static Unit> {
        let spelled = |name: &str| {
            let written = spelling(name)?;
            let mut units = self.units.iter();
            units.find(|unit| spelling(unit.name).as_ref() == Some(&written))
        };
        // Parts per million of a kit are mg/L; those of a gas are a unit of their own.
        spelled(name)
            .or_else(|| spelled(&format!("mg/L{}", name.strip_prefix("ppm")?)))
            .or_else(|| spelled(&format!("µg/L{}", name.strip_prefix("ppb")?)))
    }

    /// Whether a bare number will do.
    #[must_use]
    pub fn is_dimensionless(&self) -> bool {
        self.units.iter().any(|unit| unit.name.is_empty())
    }

    /// Names of the units, for messages.
    #[must_use]
    pub fn unit_names(&self) -> String {
        let named = |unit: &Unit| match unit.name {
            "" => "bare number",
            name => name,
        };
        self.units.iter().map(named).collect::<Vec<_>>().join(", ")
    }
}

/// Longest unit looked at, in bytes.
const MAX_UNIT_LENGTH: usize = 64;

/// Whether two names are of one unit, spelled in any usual way.
pub(crate) fn same_unit(a: &str, b: &str) -> bool {
    spelling(a).is_some_and(|a| spelling(b) == Some(a))
}

/// A unit as factors and their exponents, sorted, so that `µmol/m²/s`,
/// `umol m-2 s-1` and `µmol/(m² s)` are one. None for what is too long to be one.
fn spelling(name: &str) -> Option<Vec<(String, i32)>> {
    if name.len() > MAX_UNIT_LENGTH {
        return None;
    }
    let name = name.replace("°dKH", "dKH").replace("° ", "°");
    let mut factors = Vec::new();
    let (mut sign, mut group) = (1, 1);
    let mut word = String::new();
    for c in name.chars().chain([' ']) {
        match c {
            ' ' | '·' | '*' | '/' | '(' | ')' => {
                if !word.is_empty() {
                    push_factor(&mut factors, &word, sign * group);
                    word.clear();
                    sign = 1;
                }
                match c {
                    '/' => sign = -1,
                    '(' => (group, sign) = (sign, 1),
                    ')' => group = 1,
                    _ => {}
                }
            }
            'µ' | 'μ' => word.push('u'),
            '⁻' | '−' => word.push('-'),
            '¹' => word.push('1'),
            '²' => word.push('2'),
            '³' => word.push('3'),
            '^' => {}
            c => word.push(c),
        }
    }
    factors.sort();
    Some(factors)
}

fn push_factor(factors: &mut Vec<(String, i32)>, word: &str, sign: i32) {
    let base = word.trim_end_matches(|c: char| c.is_ascii_digit());
    let base = base.strip_suffix('-').unwrap_or(base);
    let exponent = word.strip_prefix(base).and_then(|e| e.parse::<i8>().ok());
    let (base, exponent) = match exponent {
        Some(exponent) if !base.is_empty() => (base, i32::from(exponent)),
        _ => (word, 1),
    };
    let base = match base {
        "1" => return,
        "l" | "litre" | "litres" | "liter" | "liters" => "L",
        "ml" => "mL",
        "gallon" | "gallons" => "gal",
        "gram" | "grams" => "g",
        "day" | "days" => "d",
        "hour" | "hours" | "hr" | "hrs" => "h",
        "minute" | "minutes" | "mins" => "min",
        "week" | "weeks" => "wk",
        "inch" | "inches" => "in",
        "foot" | "feet" => "ft",
        "degC" | "C" => "°C",
        "degF" | "F" => "°F",
        "dkh" => "dKH",
        "percent" => "%",
        "NO3-N" | "NH3-N" | "NH4-N" => "N",
        "PO4-P" => "P",
        other => other,
    };
    factors.push((base.to_owned(), sign * exponent));
}

macro_rules! unit {
    ($name:expr, $factor:expr) => {
        unit!($name, $factor, 0.0)
    };
    ($name:expr, $factor:expr, $shift:expr) => {
        Unit {
            name: $name,
            shift: $shift,
            factor: |_| Some($factor),
        }
    };
}

/// A unit whose factor depends on the density of the water.
macro_rules! per_litre {
    ($name:expr, $factor:expr) => {
        Unit {
            name: $name,
            shift: 0.0,
            factor: |medium| {
                let factor: fn(Density) -> halimeda::Result<f64> = $factor;
                factor(medium.density?).ok()
            },
        }
    };
}

/// Contents of a dissolved substance; the forms in which milligrams are counted
/// come with the text that tells them apart.
macro_rules! content_units {
    ($species:ident: $($form:ident $suffix:literal),*) => {
        &[
            $(
                per_litre!(concat!("mg/L", $suffix), |density| {
                    Concentration::<form::$form>::from_mg_per_l(1.0)
                        .map(|c| c.to_content(density).umol_per_kg())
                }),
                per_litre!(concat!("µg/L", $suffix), |density| {
                    Concentration::<form::$form>::from_ug_per_l(1.0)
                        .map(|c| c.to_content(density).umol_per_kg())
                }),
            )*
            unit!("µmol/kg", 1.0),
            unit!("mmol/kg", 1e3),
            per_litre!("µmol/L", |density| {
                Content::<species::$species>::from_umol_per_l(1.0, density)
                    .map(Content::umol_per_kg)
            }),
            per_litre!("mmol/L", |density| {
                Content::<species::$species>::from_umol_per_l(1e3, density)
                    .map(Content::umol_per_kg)
            }),
        ]
    };
}

macro_rules! measures {
    ($( $id:ident: $name:literal in $kept_in:literal, $units:expr; )*) => {
        $(
            #[doc = concat!("What is called ", $name, ".")]
            pub static $id: Measure = Measure {
                name: $name,
                kept_in: $kept_in,
                units: $units,
            };
        )*
        #[cfg(test)]
        pub(super) static MEASURES: &[&Measure] = &[ $(&$id),* ];
    };
}

macro_rules! alkalinity_units {
    ($($per:literal in $days:literal),*) => {
        &[
            $(
                per_litre!(concat!("dKH", $per), |density| {
                    Alkalinity::from_dkh(1.0, density).map(|a| a.umol_per_kg() / $days)
                }),
                per_litre!(concat!("meq/L", $per), |density| {
                    Alkalinity::from_meq_per_l(1.0, density).map(|a| a.umol_per_kg() / $days)
                }),
                per_litre!(concat!("mg/L CaCO3", $per), |density| {
                    Alkalinity::from_ppm_caco3(1.0, density).map(|a| a.umol_per_kg() / $days)
                }),
                unit!(concat!("µmol/kg", $per), 1.0 / $days),
                unit!(concat!("mmol/kg", $per), 1e3 / $days),
            )*
        ]
    };
}

fn us_gallon() -> Option<f64> {
    Volume::from_us_gallons(1.0).ok().map(Volume::litres)
}

macro_rules! us_gallons {
    ($name:literal, $factor:expr) => {
        Unit {
            name: $name,
            shift: 0.0,
            factor: |_| Some(us_gallon()? * $factor),
        }
    };
}

/// Litres in an imperial gallon, exact (Units of Measurement Regulations 1995, UK).
const LITRES_PER_IMPERIAL_GALLON: f64 = 4.54609;
/// Centimetres in an inch and a foot, exact (international yard, 1959).
const CM_PER_INCH: f64 = 2.54;
const CM_PER_FOOT: f64 = 30.48;
/// Grams in an avoirdupois ounce and pound, exact (international pound, 1959).
const GRAMS_PER_OUNCE: f64 = 28.349_523_125;
const GRAMS_PER_POUND: f64 = 453.592_37;
/// Millimetres of mercury in a standard atmosphere, by definition of the torr.
const MMHG_PER_ATM: f64 = 760.0;
const MM_PER_INCH: f64 = 25.4;

fn atm_per_hpa() -> Option<f64> {
    AirPressure::from_atm(1.0)
        .ok()
        .map(|standard| 1.0 / standard.hpa())
}

measures! {
    VOLUME: "volume" in "L", &[
        unit!("L", 1.0), unit!("mL", 1e-3), unit!("m³", 1e3),
        us_gallons!("gal (US)", 1.0), unit!("gal (UK)", LITRES_PER_IMPERIAL_GALLON),
    ];
    TEMPERATURE: "temperature" in "°C", &[
        unit!("°C", 1.0), unit!("°F", 1.0 / 1.8, -32.0), unit!("K", 1.0, -273.15),
    ];
    LENGTH: "length" in "cm", &[
        unit!("cm", 1.0), unit!("mm", 0.1), unit!("m", 100.0), unit!("in", CM_PER_INCH),
        unit!("ft", CM_PER_FOOT),
    ];
    ALTITUDE: "altitude" in "m", &[unit!("m", 1.0), unit!("ft", CM_PER_FOOT / 100.0)];
    AREA: "area" in "m²", &[
        unit!("m²", 1.0), unit!("cm²", 1e-4), unit!("ft²", CM_PER_FOOT * CM_PER_FOOT * 1e-4),
        unit!("in²", CM_PER_INCH * CM_PER_INCH * 1e-4),
    ];
    FLOW: "flow" in "L/h", &[
        unit!("L/h", 1.0), unit!("L/min", 60.0), unit!("m³/h", 1e3), us_gallons!("gal (US)/h", 1.0),
    ];
    FLOW_PER_WIDTH: "flow per width" in "L/h/cm", &[
        unit!("L/h/cm", 1.0), unit!("L/min/cm", 60.0),
        us_gallons!("gal (US)/h/in", 1.0 / CM_PER_INCH),
    ];
    VOLUME_PER_DAY: "volume per day" in "L/d", &[
        unit!("L/d", 1.0), unit!("mL/d", 1e-3), unit!("mL/h", 24e-3), us_gallons!("gal (US)/d", 1.0),
    ];
    DAYS: "time" in "d", &[
        unit!("d", 1.0), unit!("h", 1.0 / 24.0), unit!("min", 1.0 / 1440.0), unit!("wk", 7.0),
    ];
    HOURS: "duration" in "h", &[
        unit!("h", 1.0), unit!("min", 1.0 / 60.0), unit!("d", 24.0), unit!("wk", 168.0),
    ];
    MASS: "mass" in "g", &[
        unit!("g", 1.0), unit!("mg", 1e-3), unit!("kg", 1e3), unit!("oz", GRAMS_PER_OUNCE),
        unit!("lb", GRAMS_PER_POUND),
    ];
    MASS_PER_AREA: "dry mass per area" in "g/m²", &[unit!("g/m²", 1.0), unit!("mg/cm²", 10.0)];
    STRENGTH: "mass per volume of solution" in "g/L", &[unit!("g/L", 1.0), unit!("mg/mL", 1.0)];
    SHARE: "share" in "", &[unit!("%", 0.01), unit!("", 1.0)];
    MULTIPLE: "multiple" in "", &[unit!("", 1.0), unit!("%", 0.01)];
    PRACTICAL_SALINITY: "practical salinity" in "", &[unit!("", 1.0)];
    PH_DIFFERENCE: "difference of pH" in "", &[unit!("", 1.0)];
    PH: "pH" in "", &[
        unit!("NBS", 1.0), unit!("total", 1.0), unit!("free", 1.0), unit!("seawater", 1.0),
    ];
    SPECIFIC_GRAVITY: "specific gravity" in "", &[
        unit!("25/25 °C", 1.0), unit!("20/20 °C", 1.0), unit!("15/15 °C", 1.0),
        unit!("60/60 °F", 1.0), unit!("20/4 °C", 1.0), unit!("15/4 °C", 1.0),
    ];
    CARBON_DIOXIDE: "CO2 in dry air" in "ppm", &[
        unit!("ppm", 1.0), unit!("µmol/mol", 1.0), unit!("%", 1e4),
    ];
    PRESSURE: "pressure" in "atm", &[
        Unit { name: "hPa", shift: 0.0, factor: |_| atm_per_hpa() },
        Unit { name: "mbar", shift: 0.0, factor: |_| atm_per_hpa() },
        Unit { name: "kPa", shift: 0.0, factor: |_| Some(10.0 * atm_per_hpa()?) },
        unit!("atm", 1.0), unit!("mmHg", 1.0 / MMHG_PER_ATM),
        unit!("inHg", MM_PER_INCH / MMHG_PER_ATM),
    ];
    WATER_PRESSURE: "water pressure" in "dbar", &[
        unit!("dbar", 1.0), unit!("bar", 10.0), unit!("kPa", 0.1), unit!("Pa", 1e-4),
    ];
    CO2_PRESSURE: "pressure of CO2" in "µatm", &[
        unit!("µatm", 1.0),
        Unit { name: "Pa", shift: 0.0, factor: |_| Some(1e4 * atm_per_hpa()?) },
        Unit { name: "µbar", shift: 0.0, factor: |_| Some(1e3 * atm_per_hpa()?) },
        unit!("atm", 1e6), unit!("matm", 1e3),
    ];
    DENSITY: "density" in "kg/m³", &[
        unit!("kg/m³", 1.0), unit!("kg/L", 1e3), unit!("g/cm³", 1e3), unit!("g/mL", 1e3),
        unit!("g/L", 1.0),
    ];
    CONDUCTIVITY: "conductivity" in "mS/cm", &[
        unit!("mS/cm", 1.0), unit!("µS/cm", 1e-3), unit!("S/m", 10.0),
    ];
    WAVELENGTH: "wavelength" in "nm", &[unit!("nm", 1.0), unit!("µm", 1e3)];
    SATURATION: "saturation state" in "", &[unit!("", 1.0)];
    IRRADIANCE: "irradiance" in "µmol/m²/s", &[unit!("µmol/m²/s", 1.0)];
    POWER: "electrical power" in "W", &[unit!("W", 1.0)];
    OXYGEN: "oxygen" in "%", &[
        unit!("%", 1.0),
        Unit { name: "µmol/kg", shift: 0.0, factor: percent_oxygen },
        Unit {
            name: "mg/L",
            shift: 0.0,
            factor: |medium| {
                let reading = Concentration::<form::OxygenAsO2>::from_mg_per_l(1.0).ok()?;
                let content = reading.to_content(medium.density?).umol_per_kg();
                Some(content * percent_oxygen(medium)?)
            },
        },
    ];
    ALKALINITY: "alkalinity" in "µmol/kg", alkalinity_units!("" in 1.0);
    ALKALINITY_DRIFT: "drift of alkalinity" in "µmol/kg/d",
        alkalinity_units!("/d" in 1.0, "/wk" in 7.0);
    INORGANIC_CARBON: "inorganic carbon" in "µmol/kg",
        content_units!(InorganicCarbon: InorganicCarbonAsC " C");
    AMMONIA: "ammonia" in "µmol/kg",
        content_units!(TotalAmmonia: AmmoniaAsN " N", AmmoniaAsNh3 " NH3", AmmoniaAsNh4 " NH4");
    NITRATE: "nitrate" in "µmol/kg",
        content_units!(Nitrate: NitrateAsNo3 " NO3", NitrateAsN " N");
    PHOSPHATE: "phosphate" in "µmol/kg",
        content_units!(Phosphate: PhosphateAsPo4 " PO4", PhosphateAsP " P");
    CALCIUM: "calcium" in "µmol/kg",
        content_units!(Calcium: CalciumAsCa "", CalciumAsCa " Ca", CalciumAsCaco3 " CaCO3");
    MAGNESIUM: "magnesium" in "µmol/kg",
        content_units!(Magnesium: MagnesiumAsMg "", MagnesiumAsMg " Mg");
    STRONTIUM: "strontium" in "µmol/kg",
        content_units!(Strontium: StrontiumAsSr "", StrontiumAsSr " Sr");
    POTASSIUM: "potassium" in "µmol/kg",
        content_units!(Potassium: PotassiumAsK "", PotassiumAsK " K");
    BORON: "boron" in "µmol/kg", content_units!(Boron: BoronAsB "", BoronAsB " B");
    FLUORIDE: "fluoride" in "µmol/kg",
        content_units!(Fluoride: FluorideAsF "", FluorideAsF " F");
    SULFATE: "sulfate" in "µmol/kg", content_units!(Sulfate: SulfateAsSo4 " SO4");
    SILICATE: "silicate" in "µmol/kg",
        content_units!(Silicate: SilicateAsSio2 " SiO2", SilicateAsSi " Si");
    SULFIDE: "sulfide" in "µmol/kg", content_units!(Sulfide: SulfideAsH2s " H2S");
    CARBON_DIOXIDE_CONTENT: "dissolved CO2" in "µmol/kg",
        content_units!(CarbonDioxide: CarbonDioxideAsCo2 "", CarbonDioxideAsCo2 " CO2");
    BICARBONATE: "bicarbonate" in "µmol/kg", content_units!(Bicarbonate:);
    CARBONATE: "carbonate" in "µmol/kg", content_units!(Carbonate:);
    DOSE: "dose" in "mol/d", &[
        Unit { name: "g/d", shift: 0.0, factor: moles_per_gram },
        Unit {
            name: "mg/d",
            shift: 0.0,
            factor: |medium| Some(1e-3 * moles_per_gram(medium)?),
        },
        unit!("mol/d", 1.0), unit!("mmol/d", 1e-3),
    ];
    ORGANIC_CARBON: "organic carbon" in "mol C/d", &[
        unit!("mmol C/d", 1e-3), unit!("mol C/d", 1.0),
        unit!("g C/d", 1.0 / form::InorganicCarbonAsC::GRAMS_PER_MOL),
    ];
    DISSOLVED_OXYGEN: "dissolved oxygen" in "µmol/kg",
        content_units!(Oxygen: OxygenAsO2 "", OxygenAsO2 " O2");
    DISSOLVED_NITROGEN: "dissolved nitrogen" in "µmol/kg", content_units!(Nitrogen:);
    DISSOLVED_ARGON: "dissolved argon" in "µmol/kg", content_units!(Argon:);
    DISSOLVED_GAS: "content of a dissolved gas" in "µmol/kg", &[unit!("µmol/kg", 1.0), unit!("mmol/kg", 1e3)];
    AMOUNT: "amount of substance" in "mol", &[unit!("mol", 1.0), unit!("mmol", 1e-3)];
    WATER_MASS: "mass of water" in "kg", &[unit!("kg", 1.0)];
    WATER_MASS_PER_DAY: "mass of water per day" in "kg/d", &[unit!("kg/d", 1.0)];
    PERCENT: "percentage" in "%", &[unit!("%", 1.0)];
    DELTA_P: "difference of gas pressure" in "mmHg", &[
        unit!("mmHg", 1.0), Unit { name: "hPa", shift: 0.0, factor: |_| Some(MMHG_PER_ATM * atm_per_hpa()?) },
    ];
    POTENTIAL: "potential" in "mV", &[unit!("mV", 1.0), unit!("V", 1e3)];
    CONTENT: "content" in "µmol/kg", &[unit!("µmol/kg", 1.0), unit!("mmol/kg", 1e3)];
    CONCENTRATION: "concentration" in "mg/L", &[unit!("mg/L", 1.0), unit!("µg/L", 1e-3)];
    LIMEWATER: "calcium hydroxide in water" in "mol/L", &[
        Unit { name: "g/L", shift: 0.0, factor: moles_per_gram },
        unit!("mol/L", 1.0), unit!("mmol/L", 1e-3),
    ];
}

fn percent_oxygen(medium: &Medium) -> Option<f64> {
    Some(100.0 / medium.saturated_oxygen_umol_per_kg?)
}

fn moles_per_gram(medium: &Medium) -> Option<f64> {
    Some(1.0 / medium.grams_per_mol?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use halimeda::{PracticalSalinity, Temperature, Water};

    fn reef() -> Medium {
        let water = Water::new(
            Temperature::from_celsius(25.0).unwrap(),
            PracticalSalinity::new(35.0).unwrap(),
        );
        Medium {
            density: Some(water.density().unwrap()),
            saturated_oxygen_umol_per_kg: Some(206.77),
            grams_per_mol: Some(84.006),
        }
    }

    fn kept(measure: &Measure, number: f64, unit: &str) -> f64 {
        let unit = measure.unit(unit).unwrap_or_else(|| panic!("{unit}"));
        unit.to_kept(number, &reef()).unwrap()
    }

    #[test]
    fn units_have_one_meaning_and_turn_back() {
        for measure in MEASURES {
            for unit in measure.units {
                let found = measure.unit(unit.name).unwrap();
                assert_eq!(found.name, unit.name, "{}", measure.name);
                let kept = unit.to_kept(7.25, &reef()).unwrap();
                let back = unit.of_kept(kept, &reef()).unwrap();
                assert!(
                    (back - 7.25).abs() < 1e-12,
                    "{} {}",
                    measure.name,
                    unit.name
                );
            }
        }
    }

    #[test]
    fn spellings_of_one_unit_are_one() {
        for (a, b) in [
            ("µmol/m²/s", "umol m-2 s-1"),
            ("µmol/m²/s", "μmol m⁻² s⁻¹"),
            ("µmol/m²/s", "µmol/(m²·s)"),
            ("µmol/m²/s", "umol m^-2 s^-1"),
            ("gal (US)/h", "gallons(US)/hour"),
            ("L/h/cm", "l/h/cm"),
            ("mg/L NO3", "mg/l NO3"),
            ("mg/L N", "mg/L NO3-N"),
            ("1/d", "d⁻¹"),
            ("°C", "deg C".replace("deg ", "deg").as_str()),
            ("", "1"),
        ] {
            assert!(same_unit(a, b), "{a} {b}");
        }
        for (a, b) in [
            ("mg/L NO3", "mg/L NO3-N"),
            ("m", "mm"),
            ("m", "m99999999999"),
            ("L/h", "h/L"),
            ("gal (US)", "gal (UK)"),
            ("25/25 °C", "20/20 °C"),
            ("mL", "ML"),
        ] {
            assert!(!same_unit(a, b), "{a} {b}");
        }
        let long = "m".repeat(1000);
        assert!(!same_unit(&long, &long));
    }

    /// Exact definitions, NIST Handbook 44 (2024), appendix C.
    #[test]
    fn customary_units_are_the_defined_ones() {
        for (measure, number, unit, expected) in [
            (&VOLUME, 1.0, "gal (US)", 3.785_411_784),
            (&LENGTH, 1.0, "ft", 30.48),
            (&AREA, 1.0, "ft²", 0.092_903_04),
            (&MASS, 16.0, "oz", 453.592_37),
            (&TEMPERATURE, 212.0, "°F", 100.0),
            (&TEMPERATURE, 298.15, "K", 25.0),
            (&PRESSURE, 1013.25, "hPa", 1.0),
            (&PRESSURE, 760.0, "mmHg", 1.0),
            (&FLOW, 1.0, "L/min", 60.0),
            (&DAYS, 18.0, "h", 0.75),
        ] {
            let value = kept(measure, number, unit);
            assert!(
                (value - expected).abs() < 1e-12 * expected,
                "{number} {unit} = {value}"
            );
        }
    }

    /// Molar masses from the conventional atomic weights of IUPAC 2021, density
    /// 1023.343 kg/m³ at S 35 and 25 °C (UNESCO 1983, Tech. Pap. Mar. Sci. 44).
    #[test]
    fn contents_count_what_their_form_says() {
        let rho = 1.023343;
        for (measure, unit, expected) in [
            (&NITRATE, "mg/L NO3", 1e3 / 62.004 / rho),
            (&NITRATE, "mg/L N", 1e3 / 14.007 / rho),
            (&NITRATE, "ppm NO3-N", 1e3 / 14.007 / rho),
            (&PHOSPHATE, "mg/L PO4", 1e3 / 94.970 / rho),
            (&PHOSPHATE, "µg/L P", 1.0 / 30.974 / rho),
            (&CALCIUM, "mg/L", 1e3 / 40.078 / rho),
            (&CALCIUM, "ppm", 1e3 / 40.078 / rho),
            (&MAGNESIUM, "mg/L Mg", 1e3 / 24.305 / rho),
            (&AMMONIA, "mg/L NH3", 1e3 / 17.031 / rho),
            (&ALKALINITY, "meq/L", 1e3 / rho),
            (&ALKALINITY, "dKH", 20.0 / 56.077 * 1e3 / rho),
            (&ALKALINITY, "mg/L CaCO3", 2.0 / 100.086 * 1e3 / rho),
            (&ALKALINITY_DRIFT, "dKH/wk", 20.0 / 56.077 * 1e3 / rho / 7.0),
            (&OXYGEN, "mg/L", 1e3 / 31.998 / rho / 206.77 * 100.0),
        ] {
            let value = kept(measure, 1.0, unit);
            assert!(
                (value / expected - 1.0).abs() < 2e-5,
                "1 {unit} = {value}, not {expected}"
            );
        }
    }

    #[test]
    fn a_unit_of_unknown_water_has_no_value() {
        let unit = ALKALINITY.unit("dKH").unwrap();
        assert_eq!(unit.to_kept(8.0, &Medium::default()), None);
        assert!(
            ALKALINITY
                .unit("µmol/kg")
                .unwrap()
                .to_kept(8.0, &Medium::default())
                .is_some()
        );
    }
}
