use crate::parameter::parameters;
use crate::quantity::Form as _;
use crate::quantity::form::PhosphateAsP;

/// Phosphate content the reference loading is stated at, mol/kg: 0.3 mg P/L in
/// seawater of 1.0233 kg/L.
const REFERENCE_PHOSPHATE: f64 = 0.3e-3 / PhosphateAsP::GRAMS_PER_MOL / 1.0233;

parameters! {
    /// Granular iron oxide that binds phosphate.
    IronOxideMedia {
        /// Phosphorus bound in equilibrium with 0.3 mg/L of phosphorus, 0.92 mg/L PO4.
        reference_loading_mg_p_per_g = 10.0 in 5.0..15.0 min 1e-3, "mg P/g",
            "goethite and akaganeite in seawater, Chitrakar et al. 2006, J. Colloid Interface Sci. \
             298, 602-608";
        /// Water cleared of phosphate per gram of fresh media and day; not more
        /// than the flow through it.
        clearance_kg_per_g_per_day = 3.0 in 0.5..10.0, "kg g⁻¹ d⁻¹",
            "fresh media strips a tank within days, common practice, no source";
    }
}

/// Uptake of phosphate by iron oxide media, mol P/d; negative where loaded media
/// gives phosphate back to cleaner water.
///
/// The isotherm is the cube root found for iron hydroxide by Golterman (1995),
/// Hydrobiologia 315, 59-68: a loading q is in equilibrium with the phosphate
///
/// P* = P_ref (q/q_ref)³,
///
/// and the uptake is driven by the difference in the water, r = k m (P - P*).
/// Driven by the difference of loadings instead, k (q* - q), the clearance of
/// fresh media would grow without bound towards zero phosphate, beyond what the
/// flow through it can carry.
#[inline]
#[must_use]
pub fn iron_oxide_uptake(
    phosphate_mol_per_kg: f64,
    bound_phosphorus_mol: f64,
    media_g: f64,
    parameters: &IronOxideMedia,
) -> f64 {
    if media_g <= 0.0 {
        return 0.0;
    }
    let loading = bound_phosphorus_mol / (media_g * parameters.reference_loading_mol_per_g());
    let equilibrium = REFERENCE_PHOSPHATE * (loading * loading * loading);
    parameters.clearance_kg_per_g_per_day * media_g * (phosphate_mol_per_kg - equilibrium)
}

impl IronOxideMedia {
    #[inline]
    fn reference_loading_mol_per_g(&self) -> f64 {
        self.reference_loading_mg_p_per_g * (1e-3 / PhosphateAsP::GRAMS_PER_MOL)
    }

    /// Phosphorus a gram of media binds in equilibrium with a phosphate content, mol/g.
    #[must_use]
    pub fn equilibrium_loading_mol_per_g(&self, phosphate_mol_per_kg: f64) -> f64 {
        let ratio = phosphate_mol_per_kg.max(0.0) / REFERENCE_PHOSPHATE;
        self.reference_loading_mol_per_g() * crate::real::powf(ratio, 1.0 / 3.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn uptake_ends_at_the_isotherm_and_turns_back_beyond() {
        let p = IronOxideMedia::default();
        for umol in [0.1, 0.3, 1.0, 10.0, 30.0] {
            let content = umol * 1e-6;
            let bound = 50.0 * p.equilibrium_loading_mol_per_g(content);
            let fresh = iron_oxide_uptake(content, 0.0, 50.0, &p);
            assert!(iron_oxide_uptake(content, bound, 50.0, &p).abs() < 1e-12 * fresh);
            assert!(iron_oxide_uptake(content, 0.9 * bound, 50.0, &p) > 0.0);
            assert!(iron_oxide_uptake(content, 1.1 * bound, 50.0, &p) < 0.0);
        }
    }

    #[test]
    fn clearance_of_fresh_media_is_the_parameter() {
        let p = IronOxideMedia::default();
        let uptake = iron_oxide_uptake(1e-6, 0.0, 50.0, &p);
        assert!((uptake - 150e-6).abs() < 1e-15);
    }

    #[test]
    fn no_media_or_no_phosphate_gives_nothing() {
        let p = IronOxideMedia::default();
        assert_eq!(iron_oxide_uptake(1e-6, 0.0, 0.0, &p), 0.0);
        assert_eq!(iron_oxide_uptake(0.0, 0.0, 50.0, &p), 0.0);
        assert_eq!(p.equilibrium_loading_mol_per_g(0.0), 0.0);
        assert_eq!(p.equilibrium_loading_mol_per_g(-1e-9), 0.0);
    }

    #[test]
    fn falls_with_the_loading_and_rises_with_the_content() {
        let p = IronOxideMedia::default();
        let mut last = f64::INFINITY;
        for i in 0..40 {
            let now = iron_oxide_uptake(1e-6, f64::from(i) * 5e-4, 50.0, &p);
            assert!(now < last);
            assert!(now < iron_oxide_uptake(1.1e-6, f64::from(i) * 5e-4, 50.0, &p));
            last = now;
        }
    }
}
