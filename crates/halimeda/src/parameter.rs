//! Parameters of the biological and physical models: a default, the range in
//! which it is uncertain, its unit and where that comes from.
//!
//! A default is never a measurement of the user's tank. Ensembles draw from the
//! range; a fit narrows it.

use crate::Result;

/// What is known of one parameter before anything was measured in the tank.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ParameterInfo {
    /// Name of the field.
    pub name: &'static str,
    /// Unit.
    pub unit: &'static str,
    /// Default value, in `unit`.
    pub default: f64,
    /// Lower end of the range of uncertainty, in `unit`.
    pub low: f64,
    /// Upper end of the range of uncertainty, in `unit`.
    pub high: f64,
    /// Where the value and range come from.
    pub source: &'static str,
}

/// A set of named parameters.
pub trait ParameterSet: Copy + Default {
    /// What each parameter is, in the order of [`ParameterSet::value`].
    const PARAMETERS: &'static [ParameterInfo];

    /// The parameter at a position of [`ParameterSet::PARAMETERS`].
    fn value(&self, index: usize) -> Option<f64>;

    /// This set with the parameter at a position replaced; unchanged beyond the end.
    #[must_use]
    fn with_value(self, index: usize, value: f64) -> Self;

    /// Checks that every parameter is finite, not negative and within the bounds it
    /// has by its nature: a fraction not above one, what divides not zero.
    ///
    /// # Errors
    /// Names the first parameter that is not.
    fn check(&self) -> Result<()>;
}

/// Defines a [`ParameterSet`] with public fields. `min` and `max` give the bounds a
/// parameter has by its nature: above zero for what divides, 1 for a fraction.
macro_rules! parameters {
    (@min) => { 0.0 };
    (@min $min:literal) => { $min };
    (@max) => { f64::MAX };
    (@max $max:literal) => { $max };
    (
        $(#[$meta:meta])*
        $name:ident {
            $(
                $(#[$doc:meta])*
                $field:ident = $default:literal in $low:literal..$high:literal
                    $(min $min:literal)? $(max $max:literal)?, $unit:literal, $source:literal;
            )*
        }
    ) => {
        $(#[$meta])*
        #[derive(Debug, Clone, Copy, PartialEq)]
        #[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
        #[cfg_attr(feature = "serde", serde(default, deny_unknown_fields))]
        pub struct $name {
            $(
                $(#[$doc])*
                ///
                #[doc = concat!(
                    "Unit ", $unit, "; default ", stringify!($default), ", range ",
                    stringify!($low), " to ", stringify!($high), ". Source: ", $source, "."
                )]
                pub $field: f64,
            )*
        }

        impl Default for $name {
            fn default() -> Self {
                Self { $( $field: $default, )* }
            }
        }

        impl $crate::parameter::ParameterSet for $name {
            const PARAMETERS: &'static [$crate::parameter::ParameterInfo] = &[
                $( $crate::parameter::ParameterInfo {
                    name: stringify!($field),
                    unit: $unit,
                    default: $default,
                    low: $low,
                    high: $high,
                    source: $source,
                }, )*
            ];

            fn value(&self, index: usize) -> Option<f64> {
                [ $( self.$field, )* ].get(index).copied()
            }

            fn with_value(mut self, index: usize, value: f64) -> Self {
                if let Some(field) = [ $( &mut self.$field, )* ].into_iter().nth(index) {
                    *field = value;
                }
                self
            }

            fn check(&self) -> $crate::Result<()> {
                $( $crate::error::within(
                    stringify!($field),
                    self.$field,
                    $crate::parameter::parameters!(@min $($min)?),
                    $crate::parameter::parameters!(@max $($max)?),
                    $unit,
                )?; )*
                Ok(())
            }
        }
    };
}
pub(crate) use parameters;
