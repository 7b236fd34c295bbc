use core::fmt;
use core::marker::PhantomData;

use crate::Result;
use crate::error::within;

/// A pH scale.
///
/// In seawater of a reef tank the four differ by up to 0.16; a pH without its
/// scale is therefore not a pH.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum PhScale {
    /// Free hydrogen ion plus bisulfate; the scale of the constants inside.
    Total,
    /// Free hydrogen ion.
    Free,
    /// Free hydrogen ion plus bisulfate plus hydrogen fluoride.
    Seawater,
    /// Activity scale of the low-ionic-strength NBS (NIST) buffers that hobby
    /// probes are calibrated in.
    Nbs,
}

impl PhScale {
    /// Name for messages: "total", "free", "seawater" or "NBS".
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Total => "total",
            Self::Free => "free",
            Self::Seawater => "seawater",
            Self::Nbs => "NBS",
        }
    }
}

impl fmt::Display for PhScale {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// Marks a type as one of the four scales.
pub trait Scale: Copy + core::fmt::Debug + PartialEq + PartialOrd + 'static {
    /// The scale at run time.
    const SCALE: PhScale;
    /// Name of a pH on it, for messages.
    const NAME: &'static str;
}

macro_rules! scale {
    ($(#[$doc:meta])* $name:ident, $scale:ident, $text:literal) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
        pub struct $name;
        impl Scale for $name {
            const SCALE: PhScale = PhScale::$scale;
            const NAME: &'static str = $text;
        }
    };
}

scale! {
    /// Marker of the total scale, [`PhScale::Total`].
    TotalScale, Total, "pH (total scale)"
}
scale! {
    /// Marker of the free scale, [`PhScale::Free`].
    FreeScale, Free, "pH (free scale)"
}
scale! {
    /// Marker of the seawater scale, [`PhScale::Seawater`].
    SeawaterScale, Seawater, "pH (seawater scale)"
}
scale! {
    /// Marker of the NBS scale, [`PhScale::Nbs`].
    NbsScale, Nbs, "pH (NBS scale)"
}

/// A pH on the scale `S`. Accepted from 0 to 14.
///
/// Scales do not mix; converting needs the water, see
/// [`Equilibria::convert_ph`](crate::carbonate::Equilibria::convert_ph):
///
/// ```compile_fail,E0308
/// use halimeda::{NbsScale, Ph, TotalScale};
/// fn needs_total(ph: Ph<TotalScale>) {}
/// needs_total(Ph::<NbsScale>::new(8.2).unwrap());
/// ```
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Ph<S: Scale> {
    value: f64,
    scale: PhantomData<S>,
}

impl<S: Scale> Ph<S> {
    /// From its value on the scale `S`.
    ///
    /// # Errors
    /// The value is not finite, below 0 or above 14.
    pub const fn new(value: f64) -> Result<Self> {
        match within(S::NAME, value, AnyPh::MIN, AnyPh::MAX, "(pH)") {
            Ok(value) => Ok(Self {
                value,
                scale: PhantomData,
            }),
            Err(e) => Err(e),
        }
    }

    pub(crate) const fn unchecked(value: f64) -> Self {
        Self {
            value,
            scale: PhantomData,
        }
    }

    /// The value, on the scale `S`.
    #[must_use]
    pub const fn value(self) -> f64 {
        self.value
    }
}

/// A pH whose scale is known at run time only.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AnyPh {
    value: f64,
    scale: PhScale,
}

impl AnyPh {
    /// Smallest accepted value.
    pub const MIN: f64 = 0.0;
    /// Largest accepted value.
    pub const MAX: f64 = 14.0;

    /// From its value and scale.
    ///
    /// # Errors
    /// The value is not finite, below [`AnyPh::MIN`] or above [`AnyPh::MAX`].
    pub const fn new(value: f64, scale: PhScale) -> Result<Self> {
        let name = match scale {
            PhScale::Total => TotalScale::NAME,
            PhScale::Free => FreeScale::NAME,
            PhScale::Seawater => SeawaterScale::NAME,
            PhScale::Nbs => NbsScale::NAME,
        };
        match within(name, value, Self::MIN, Self::MAX, "(pH)") {
            Ok(value) => Ok(Self { value, scale }),
            Err(e) => Err(e),
        }
    }

    /// The value, on [`AnyPh::scale`].
    #[must_use]
    pub const fn value(self) -> f64 {
        self.value
    }

    /// The scale.
    #[must_use]
    pub const fn scale(self) -> PhScale {
        self.scale
    }
}

impl<S: Scale> From<Ph<S>> for AnyPh {
    fn from(ph: Ph<S>) -> Self {
        Self {
            value: ph.value,
            scale: S::SCALE,
        }
    }
}

/// A pH is written with its scale, `{"value": 8.1, "scale": "total"}`, and read
/// back only on the scale that is asked for.
#[cfg(feature = "serde")]
mod with_serde {
    use super::{AnyPh, Ph, PhScale, Scale};
    use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

    #[derive(Serialize, Deserialize)]
    #[serde(rename = "Ph", deny_unknown_fields)]
    struct Record {
        value: f64,
        scale: PhScale,
    }

    impl Serialize for AnyPh {
        fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
            let Self { value, scale } = *self;
            Record { value, scale }.serialize(serializer)
        }
    }

    impl<'de> Deserialize<'de> for AnyPh {
        fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
            let Record { value, scale } = Record::deserialize(d)?;
            Self::new(value, scale).map_err(de::Error::custom)
        }
    }

    impl<T: Scale> Serialize for Ph<T> {
        fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
            AnyPh::from(*self).serialize(serializer)
        }
    }

    impl<'de, T: Scale> Deserialize<'de> for Ph<T> {
        fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
            let ph = AnyPh::deserialize(d)?;
            if ph.scale != T::SCALE {
                return Err(de::Error::custom(format_args!(
                    "a {} is needed, this one is on the {} scale",
                    T::NAME,
                    ph.scale.name()
                )));
            }
            Self::new(ph.value).map_err(de::Error::custom)
        }
    }
}
