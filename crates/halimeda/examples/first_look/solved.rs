//! The state of the carbonate system as the readings have it.

use halimeda::carbonate::{CarbonateState, Correlation, Output, Parameter, Uncertainties};
use halimeda::gas::co2_dry_mole_fraction;
use halimeda::nutrient::{AmmoniaVerdict, unionised_ammonia};
use halimeda::quantity::Form;
use halimeda::{Alkalinity, Concentration, Content, Density, Water, form, species};

use crate::assessment::{
    AlkalinityPart, AmmoniaPart, BufferingPart, CarbonPart, Limits, PhPart, ProbePart, Share,
};
use crate::estimate::Estimate;
use crate::kit::Measured;
use crate::kits::{Kits, at_most_mg_per_l, mg_per_l};
use crate::readings::ProbePh;

/// The state now, with its uncertainties.
pub(crate) struct Solved<'a> {
    pub(crate) state: CarbonateState,
    pub(crate) uncertainties: Uncertainties<'a>,
}

impl Solved<'_> {
    pub(crate) fn estimate(&self, output: Output, value: f64) -> Estimate {
        Estimate::new(value, self.uncertainties.standard(output))
    }

    pub(crate) fn ph_total(&self) -> Estimate {
        self.estimate(Output::PhTotal, self.state.ph_total().value())
    }

    pub(crate) fn pco2(&self) -> Estimate {
        self.estimate(
            Output::PartialPressure,
            self.state.partial_pressure_co2().uatm(),
        )
    }

    pub(crate) fn ph(&self, read: &ProbePh) -> halimeda::Result<PhPart> {
        Ok(PhPart {
            nbs: self.estimate(Output::PhNbs, self.state.ph_nbs()?.value()),
            total: self.ph_total(),
            seawater: self.estimate(Output::PhSeawater, self.state.ph_seawater().value()),
            free: self.estimate(Output::PhFree, self.state.ph_free().value()),
            probe: read.calibration.as_ref().map(|check| ProbePart {
                slope_percent: check.slope_percent,
                offset_mv: check.offset_mv,
                is_bracketed: check.is_bracketed,
                health: check.health,
            }),
        })
    }

    pub(crate) fn alkalinity(&self, density: Density) -> AlkalinityPart {
        let total = self.state.alkalinity();
        let umol_per_kg = self.estimate(Output::Alkalinity, total.umol_per_kg());
        let per_umol = |value: f64| umol_per_kg.times(value / total.umol_per_kg());
        let parts = self.state.alkalinity_parts();
        let named =
            parts.bicarbonate_umol_per_kg + parts.carbonate_umol_per_kg + parts.borate_umol_per_kg;
        AlkalinityPart {
            dkh: per_umol(total.dkh(density)),
            meq_per_l: per_umol(total.meq_per_l(density)),
            ppm_caco3: per_umol(total.ppm_caco3(density)),
            umol_per_kg,
            from_bicarbonate_umol_per_kg: parts.bicarbonate_umol_per_kg,
            from_carbonate_umol_per_kg: parts.carbonate_umol_per_kg,
            from_borate_umol_per_kg: parts.borate_umol_per_kg,
            from_the_rest_umol_per_kg: parts.sum_umol_per_kg() - named,
        }
    }

    pub(crate) fn carbon(&self, water: &Water) -> halimeda::Result<CarbonPart> {
        let state = &self.state;
        let pco2 = self.pco2();
        let balanced_ppm = co2_dry_mole_fraction(state.partial_pressure_co2(), water)?
            .value()
            .ppm();
        Ok(CarbonPart {
            inorganic_carbon_umol_per_kg: self.estimate(
                Output::InorganicCarbon,
                state.inorganic_carbon().umol_per_kg(),
            ),
            dissolved_co2_umol_per_kg: self
                .estimate(Output::CarbonDioxide, state.carbon_dioxide().umol_per_kg()),
            bicarbonate_umol_per_kg: self
                .estimate(Output::Bicarbonate, state.bicarbonate().umol_per_kg()),
            carbonate_umol_per_kg: self
                .estimate(Output::Carbonate, state.carbonate().umol_per_kg()),
            pco2_uatm: pco2,
            balanced_air_ppm: pco2.times(balanced_ppm / pco2.value),
        })
    }

    pub(crate) fn ammonia(
        &self,
        total: &Measured<species::TotalAmmonia>,
        density: Density,
    ) -> halimeda::Result<AmmoniaPart> {
        let fraction = unionised_ammonia(
            self.state.equilibria().water(),
            self.state.ph_total(),
            total.estimate.content(),
        )?
        .fraction();
        let unionised = self.state.unionised_ammonia();
        let mass: Concentration<form::UnionisedAmmoniaAsNh3> = unionised.to_concentration(density);
        let mg_per_umol = 1e-3 * form::UnionisedAmmoniaAsNh3::GRAMS_PER_MOL * density.kg_per_l();
        let estimate = self
            .estimate(Output::UnionisedAmmonia, unionised.umol_per_kg())
            .times(mg_per_umol);
        let at_most = estimate.value + 2.0 * estimate.standard_uncertainty;
        Ok(AmmoniaPart {
            total_mg_n_per_l: mg_per_l::<form::AmmoniaAsN>(total.estimate, density),
            total_at_most_mg_n_per_l: at_most_mg_per_l::<form::AmmoniaAsN>(total, density),
            unionised_percent: 100.0 * fraction,
            unionised_mg_nh3_per_l: estimate,
            unionised_at_most_mg_nh3_per_l: at_most,
            is_detected: total.is_detected,
            verdict: AmmoniaVerdict::of(mass),
            // Not above the largest concentration, twelve orders of magnitude away.
            verdict_at_most: Concentration::from_mg_per_l(at_most)
                .map_or(AmmoniaVerdict::AboveAcute, AmmoniaVerdict::of),
        })
    }

    pub(crate) fn what_limits(&self, kits: &Kits, correlations: &[Correlation]) -> Vec<Limits> {
        let mut results = vec![
            ("pH, total scale", Output::PhTotal),
            ("dissolved inorganic carbon", Output::InorganicCarbon),
            ("pCO2", Output::PartialPressure),
        ];
        if kits.calcium.is_some() {
            results.push(("aragonite saturation", Output::Aragonite));
        }
        if kits.ammonia.is_some() {
            results.push(("un-ionised ammonia", Output::UnionisedAmmonia));
        }
        results
            .into_iter()
            .map(|(result, output)| Limits {
                result,
                shares: self.shares(output, correlations),
            })
            .collect()
    }

    /// Shares of the variance of an output. That of a correlation goes to the
    /// group its two parameters are in.
    pub(crate) fn shares(&self, output: Output, correlations: &[Correlation]) -> Vec<Share> {
        let variance = self.uncertainties.covariance(output, output);
        if variance <= 0.0 {
            return Vec::new();
        }
        let effect = |parameter| self.uncertainties.effect(output, parameter);
        let mut shares: Vec<Share> = Vec::new();
        let mut add = |parameter, part: f64| {
            let from = group(parameter);
            let percent = 100.0 * part / variance;
            match shares.iter_mut().find(|share| share.from == from) {
                Some(share) => share.percent_of_variance += percent,
                None => shares.push(Share {
                    from,
                    percent_of_variance: percent,
                }),
            }
        };
        for &parameter in Parameter::ALL {
            let effect = effect(parameter);
            if effect != 0.0 {
                add(parameter, effect * effect);
            }
        }
        for c in correlations {
            add(
                c.first,
                2.0 * c.coefficient * effect(c.first) * effect(c.second),
            );
        }
        shares.sort_by(|a, b| b.percent_of_variance.total_cmp(&a.percent_of_variance));
        shares
    }
}

/// Who brought a parameter's uncertainty in.
pub(crate) fn group(parameter: Parameter) -> &'static str {
    match parameter {
        Parameter::First => "the alkalinity kit",
        Parameter::Second => "the probe and its buffers",
        Parameter::PFh => "the probe's liquid junction",
        Parameter::Temperature | Parameter::Salinity => "temperature and salinity",
        Parameter::Calcium => "the calcium kit",
        Parameter::Ammonia => "the ammonia kit",
        Parameter::Phosphate => "the phosphate kit",
        Parameter::Boron => "the boron in the salt",
        _ => "the published constants",
    }
}

pub(crate) fn buffering(
    state: &CarbonateState,
    density: Density,
) -> halimeda::Result<BufferingPart> {
    let ph_change = |alkalinity_mol_per_kg: f64, carbon_mol_per_kg: f64| -> halimeda::Result<f64> {
        let after = state.equilibria().solve(
            Alkalinity::from_mol_per_kg(state.alkalinity().mol_per_kg() + alkalinity_mol_per_kg)?,
            Content::<species::InorganicCarbon>::from_mol_per_kg(
                state.inorganic_carbon().mol_per_kg() + carbon_mol_per_kg,
            )?,
        )?;
        Ok(after.ph_total().value() - state.ph_total().value())
    };
    let co2 = Concentration::<form::CarbonDioxideAsCo2>::from_mg_per_l(1.0)?.to_content(density);
    let half_a_dkh = Alkalinity::from_dkh(0.5, density)?.mol_per_kg();
    Ok(BufferingPart {
        revelle_factor: state.buffer_factors().revelle,
        ph_change_with_1_mg_per_l_of_co2: ph_change(0.0, co2.mol_per_kg())?,
        // Na2CO3 brings one carbon with two equivalents, NaHCO3 with one.
        ph_change_with_half_a_dkh_as_carbonate: ph_change(half_a_dkh, half_a_dkh / 2.0)?,
        ph_change_with_half_a_dkh_as_bicarbonate: ph_change(half_a_dkh, half_a_dkh)?,
    })
}
