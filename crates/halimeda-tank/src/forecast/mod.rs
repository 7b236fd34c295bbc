//! What will happen, how well that was foretold before, and what to test next.
//!
//! A forecast follows the tanks that the log leaves possible on from its end, brings each
//! near the last readings for a while, and says how far they spread. It is worth something only if it does better than its
//! rivals that cost nothing: "nothing changes" and a straight line through the last
//! readings. [`rolling_origin`] holds it against both on readings it was not shown.

mod assimilate;
mod correction;
mod future;
mod next_test;
mod rivals;
mod rolling;
mod score;

pub(crate) use assimilate::Members;
pub(crate) use correction::Correction;
pub use future::{DailyBand, Forecast, ForecastOptions, HorizonForecast, forecast};
pub use next_test::{NextTest, NextTestOptions, next_tests};
pub(crate) use rivals::Rivals;
pub use rolling::{Horizon, SkillRow, rolling_origin};
pub use score::{ForecastScore, Verification};
