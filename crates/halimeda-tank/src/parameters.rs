use halimeda::parameter::{ParameterInfo, ParameterSet};
use halimeda::process::{
    BacteriaOnDosedCarbon, CoralCalcification, CorallineCalcification, Denitrification, Display,
    FoamFractionation, GasTransfer, IronOxideMedia, Livestock, Mineralisation, Nitrification,
    TopOff,
};
use halimeda::turf::{Lamp, Screen, TurfTraits};
use serde::{Deserialize, Serialize};

macro_rules! groups {
    ($( $(#[$doc:meta])* $field:ident: $set:ident, $prefix:literal; )*) => {
        /// Every parameter of the tank model, by group.
        #[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
        #[serde(default, deny_unknown_fields)]
        pub struct Parameters {
            $( $(#[$doc])* pub $field: $set, )*
        }

        impl Parameters {
            /// Number of parameters.
            pub const COUNT: usize = 0 $( + $set::PARAMETERS.len() )*;

            /// Every parameter, in order: its group and what is known of it.
            pub fn infos() -> impl Iterator<Item = (&'static str, &'static ParameterInfo)> + Clone {
                let groups: [(&str, &[ParameterInfo]); [$($prefix),*].len()] =
                    [ $( ($prefix, $set::PARAMETERS), )* ];
                groups.into_iter().flat_map(|(prefix, infos)| infos.iter().map(move |i| (prefix, i)))
            }

            /// The parameter at a position.
            #[must_use]
            pub fn value(&self, index: usize) -> Option<f64> {
                let mut index = index;
                $(
                    if let Some(value) = self.$field.value(index) {
                        return Some(value);
                    }
                    index -= $set::PARAMETERS.len();
                )*
                let _ = index;
                None
            }

            /// These parameters with the one at a position replaced.
            #[must_use]
            pub fn with_value(mut self, index: usize, value: f64) -> Self {
                let mut index = index;
                $(
                    if index < $set::PARAMETERS.len() {
                        self.$field = self.$field.with_value(index, value);
                        return self;
                    }
                    index -= $set::PARAMETERS.len();
                )*
                let _ = index;
                self
            }

            /// Checks every parameter.
            ///
            /// # Errors
            /// Names the first that is not finite or outside what it may be, or two
            /// traits of the turf that contradict one another.
            pub fn check(&self) -> halimeda::Result<()> {
                $( self.$field.check()?; )*
                self.turf.check_order()
            }
        }
    };
}

groups! {
    /// The turf.
    turf: TurfTraits, "turf";
    /// The screen.
    screen: Screen, "screen";
    /// The lamps over the screen.
    lamp: Lamp, "lamp";
    /// Gas exchange.
    gas_transfer: GasTransfer, "gas_transfer";
    /// Fed animals.
    livestock: Livestock, "livestock";
    /// Decay of detritus and dissolved organic matter.
    mineralisation: Mineralisation, "mineralisation";
    /// Nitrification on rock.
    nitrification: Nitrification, "nitrification";
    /// Denitrification in rock.
    denitrification: Denitrification, "denitrification";
    /// Iron-oxide medium.
    iron_oxide: IronOxideMedia, "iron_oxide";
    /// Foam fractionation.
    foam: FoamFractionation, "foam";
    /// Bacteria on dosed carbon.
    bacteria: BacteriaOnDosedCarbon, "bacteria";
    /// Corals' calcification.
    coral: CoralCalcification, "coral";
    /// Coralline algae's calcification.
    coralline: CorallineCalcification, "coralline";
    /// Photosynthesis and respiration of the display.
    display: Display, "display";
    /// Top-off.
    top_off: TopOff, "top_off";
}

impl Parameters {
    /// Position of a parameter by group and name, as in "turf.reserve_days".
    #[must_use]
    pub fn position(path: &str) -> Option<usize> {
        let (group, name) = path.split_once('.')?;
        Self::infos().position(|(g, info)| g == group && info.name == name)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn positions_and_values_agree() {
        let p = Parameters::default();
        assert_eq!(Parameters::infos().count(), Parameters::COUNT);
        for (i, (group, info)) in Parameters::infos().enumerate() {
            assert_eq!(p.value(i), Some(info.default), "{group}.{}", info.name);
            let path = format!("{group}.{}", info.name);
            assert_eq!(Parameters::position(&path), Some(i));
            let changed = p.with_value(i, 0.123);
            assert_eq!(changed.value(i), Some(0.123));
            for j in 0..Parameters::COUNT {
                if j != i {
                    assert_eq!(changed.value(j), p.value(j));
                }
            }
        }
        assert_eq!(p.value(Parameters::COUNT), None);
        p.check().unwrap();
        assert_eq!(Parameters::position("turf.nothing"), None);
    }
}
