use crate::parameter::parameters;
use crate::real::powf;
use crate::water::atmosphere::GRAVITY;

parameters! {
    /// How a screen ages and is colonised.
    Screen {
        /// Share of a bare screen that settles per day from what drifts past.
        settlement_per_day = 0.004 in 0.001..0.020, "1/d",
            "common practice, no source: first green within days";
        /// Biomass of newly settled cover.
        settled_g_dry_per_m2 = 2.0 in 0.5..5.0, "g dry/m²", "from memory";
        /// Share of the roughness that holds turf lost at each scraping.
        roughness_lost_per_scraping = 0.007 in 0.004..0.020 max 1.0, "1",
            "common practice, no source: screens are replaced after some 50 scrapings, weekly for a year to fortnightly for two";
        /// Friction factor (Darcy) of a falling film over turf.
        film_friction_factor = 1.0 in 0.3..3.0 min 1e-3, "1", "weak, from memory: flow over vegetation";
        /// Mass transfer velocity at a film velocity of 0.03 m/s.
        transfer_m_per_day_at_3_cm_per_s = 1.4 in 0.9..2.5, "m/d",
            "Thomas & Atkinson 1997, 1.4 to 12 m/d at 3 to 38 cm/s";
    }
}

/// Water running down a screen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlowOverScreen {
    /// Mean velocity of the film, m/s.
    pub velocity_m_per_s: f64,
    /// Mass transfer velocity between water and turf, m/d.
    pub transfer_m_per_day: f64,
}

impl Screen {
    /// Film velocity and mass transfer for a flow per width of screen.
    ///
    /// A film of thickness δ falls at constant speed where its weight balances
    /// friction, g δ = f U²/8 with q = U δ, hence U = (8 g q / f)^(1/3). Transfer
    /// rises with U^0.8 (Thomas & Atkinson 1997, Limnol. Oceanogr. 42, 81-88, doi
    /// 10.4319/lo.1997.42.1.0081).
    #[must_use]
    pub fn flow(&self, litres_per_hour_per_cm: f64) -> FlowOverScreen {
        let m2_per_s = litres_per_hour_per_cm.max(0.0) * 1e-3 / 3600.0 / 0.01;
        let velocity = powf(
            8.0 * GRAVITY * m2_per_s / self.film_friction_factor,
            1.0 / 3.0,
        );
        FlowOverScreen {
            velocity_m_per_s: velocity,
            transfer_m_per_day: self.transfer_m_per_day_at_3_cm_per_s * powf(velocity / 0.03, 0.8),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Thomas & Atkinson (1997): 1.4 to 12 m/d between 3 and 38 cm/s.
    #[test]
    fn transfer_spans_the_published_velocities() {
        let screen = Screen::default();
        let at = |u: f64| screen.transfer_m_per_day_at_3_cm_per_s * powf(u / 0.03, 0.8);
        assert!((at(0.03) - 1.4).abs() < 1e-12);
        assert!((at(0.38) - 12.0).abs() < 2.0);
        // 35 gallons per hour per inch, common practice: 52 L/h per cm.
        let flow = screen.flow(52.0);
        assert!(flow.velocity_m_per_s > 0.2 && flow.velocity_m_per_s < 1.0);
        assert_eq!(screen.flow(0.0).transfer_m_per_day, 0.0);
    }
}
