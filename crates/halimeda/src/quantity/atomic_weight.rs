//! Conventional atomic weights, g/mol: IUPAC 2021 (Prohaska et al. 2022, Pure
//! Appl. Chem. 94, 573-600, doi 10.1515/pac-2019-0603).

pub(crate) const H: f64 = 1.008;
pub(crate) const B: f64 = 10.81;
pub(crate) const C: f64 = 12.011;
pub(crate) const N: f64 = 14.007;
pub(crate) const O: f64 = 15.999;
pub(crate) const F: f64 = 18.998403162;
pub(crate) const NA: f64 = 22.98976928;
pub(crate) const MG: f64 = 24.305;
pub(crate) const SI: f64 = 28.085;
pub(crate) const P: f64 = 30.973761998;
pub(crate) const S: f64 = 32.06;
pub(crate) const CL: f64 = 35.45;
pub(crate) const AR: f64 = 39.95;
pub(crate) const K: f64 = 39.0983;
pub(crate) const CA: f64 = 40.078;
pub(crate) const SR: f64 = 87.62;
