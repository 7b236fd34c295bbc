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
        match within(S::NAME, value, 0.0, 14.0, "(pH)") {
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
    /// From its value and scale.
    ///
    /// # Errors
    /// The value is not finite, below 0 or above 14.
    pub const fn new(value: f64, scale: PhScale) -> Result<Self> {
        let name = match scale {
            PhScale::Total => TotalScale::NAME,
            PhScale::Free => FreeScale::NAME,
            PhScale::Seawater => SeawaterScale::NAME,
            PhScale::Nbs => NbsScale::NAME,
        };
        match within(name, value, 0.0, 14.0, "(pH)") {
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
