//! halimeda without anything below it: no standard library, no allocator, no
//! C library, no start-up code. That this links proves that the core asks for
//! none of them; that it runs proves that it computes the same.

#![no_std]
#![no_main]

mod memory;

use core::hint::black_box;
use core::panic::PanicInfo;

use halimeda::carbonate::{
    Bases, CarbonateState, EquilibriumOptions, HydrogenFluoride, Output, UncertaintyBudget,
};
use halimeda::dosing::{
    Amount, Consumption, DoseLimits, DosedSystem, Salt, Supplement, alkalinity_fall_per_day,
};
use halimeda::gas::{
    Air, ExchangePath, GasKind, PathKind, Reading, Reaeration, TotalGasPressure, TransferBasis,
    exchange, oxygen_solubility,
};
use halimeda::nutrient::{
    CarbonateComposition, ContentEstimate, KitPrecision, KitReading, NitrogenToPhosphorus,
    dissolved_inorganic_nitrogen, unionised_ammonia,
};
use halimeda::probe::{BufferReading, ProbeCalibration, ProbeUncertainty};
use halimeda::water::{
    Conductivity, Hydrometer, RefractiveIndex, SpecificGravityReference, Wavelength,
    practical_salinity_from_conductivity, practical_salinity_from_refractive_index,
};
use halimeda::{
    Alkalinity, Area, Composition, Concentration, Content, DeltaP, DryMoleFractionCo2,
    ElectrodePotential, Extrapolation, Mass, NbsScale, PartialPressureCo2, Ph, PracticalSalinity,
    Result, Temperature, TotalScale, TransferVelocity, Water, WaterPressure, form, species,
};

/// Numbers the compiler may not know beforehand, or it would do the chemistry
/// itself and link none of it.
fn given(number: f64) -> f64 {
    black_box(number)
}

fn water() -> Result<Water> {
    Ok(Water::new(
        // 25 °C of IPTS-68, the scale of the density tables.
        Temperature::from_celsius(given(25.0) / 1.00024)?,
        PracticalSalinity::new(given(35.0))?,
    ))
}

/// A reef water with measured ions and nutrients.
fn state() -> Result<CarbonateState> {
    let composition = Composition::REFERENCE
        .with_sulfate(Content::from_umol_per_kg(given(28_240.0))?)
        .with_fluoride(Content::from_umol_per_kg(given(68.0))?)
        .with_boron(Content::from_umol_per_kg(given(430.0))?)
        .with_calcium(Content::from_umol_per_kg(given(10_300.0))?);
    let options = EquilibriumOptions {
        hydrogen_fluoride: black_box(HydrogenFluoride::DicksonRiley1979),
        ..EquilibriumOptions::default()
    };
    Water::new(
        Temperature::from_celsius(given(25.0))?,
        PracticalSalinity::new(given(35.0))?,
    )
    .with_composition(composition)
    .equilibria(&options)?
    .with_bases(Bases {
        phosphate: Content::from_umol_per_kg(given(1.0))?,
        ammonia: Content::from_umol_per_kg(given(5.0))?,
        silicate: Content::from_umol_per_kg(given(10.0))?,
        ..Bases::NONE
    })?
    .solve(
        Alkalinity::from_umol_per_kg(given(2300.0))?,
        Content::<species::InorganicCarbon>::from_umol_per_kg(given(2000.0))?,
    )
}

/// A computation: what it gave, what it must give and how closely.
type Computation = (f64, f64, f64);

fn carbonate_system() -> Result<[Computation; 6]> {
    let state = state()?;
    let uncertainty = state.uncertainties(&UncertaintyBudget::CONSTANTS)?;
    Ok([
        // Fofonoff & Millard (1983), UNESCO Tech. Pap. Mar. Sci. 44, one-atmosphere
        // density at S 35, 25 °C.
        (water()?.density()?.kg_per_m3(), 1023.343, 0.0005),
        // PyCO2SYS 1.8.3.4, given the same.
        (state.ph_total().value(), 8.03821257653, 1e-10),
        (state.partial_pressure_co2().uatm(), 404.7502853, 1e-6),
        (state.aragonite_saturation().value(), 3.337790131, 1e-8),
        (state.unionised_ammonia().umol_per_kg(), 0.291885485, 1e-8),
        // From the uncertainty of the constants; PyCO2SYS takes finite differences.
        (uncertainty.standard(Output::PhTotal), 0.010395282, 1e-6),
    ])
}

fn salinity() -> Result<[Computation; 3]> {
    let refuse = Extrapolation::Refuse;
    let conductivity = practical_salinity_from_conductivity(
        Conductivity::from_ms_per_cm(given(42.914))?,
        Temperature::from_celsius(given(15.0) / 1.00024)?,
        WaterPressure::SURFACE,
        refuse,
    )?;
    let index = practical_salinity_from_refractive_index(
        RefractiveIndex::new(given(1.339386))?,
        Wavelength::SODIUM_D,
        Temperature::from_celsius(given(20.0))?,
        refuse,
    )?;
    let at_25 = Temperature::from_celsius(given(25.0) / 1.00024)?;
    let hydrometer = Hydrometer::glass(SpecificGravityReference::new(at_25, at_25)?);
    let gravity = hydrometer.practical_salinity(given(1023.34306 / 997.04796), at_25, refuse)?;
    Ok([
        // The definition of the scale (Perkin & Lewis 1980; Culkin & Smith 1980).
        (conductivity.salinity().value(), 35.0, 1e-6),
        // Millard & Seaver (1990), table 2; the table's rounding is 0.003.
        (index.salinity().value(), 35.0, 0.003),
        // The two densities of UNESCO 44, p. 19.
        (gravity.salinity().value(), 35.0, 1e-4),
    ])
}

fn gases() -> Result<[Computation; 4]> {
    let cold = Water::new(
        Temperature::from_celsius(given(10.0) / 1.00024)?,
        PracticalSalinity::new(given(35.0))?,
    );
    let gas = TotalGasPressure::from_delta_p(DeltaP::from_mmhg(given(76.0))?, &cold)?.value();

    let mut readings = [Reading::<species::Oxygen>::new(0.0, Content::ZERO)?; 14];
    for (reading, (hours, umol_per_kg)) in readings.iter_mut().zip(MISRA1A) {
        *reading = Reading::new(given(hours), Content::from_umol_per_kg(umol_per_kg)?)?;
    }
    let fit = Reaeration::new()
        .with_initial(Content::ZERO)
        .fit(&readings)?;

    let paths = [ExchangePath::from_velocity(
        PathKind::OpenSurface,
        TransferVelocity::from_cm_per_h(given(3.0))?,
        Area::from_m2(given(0.5))?,
        TransferBasis::new(GasKind::Oxygen, cold.temperature()),
        Air::new(DryMoleFractionCo2::from_ppm(given(420.0))?),
    )];
    let exchange = exchange::<species::Oxygen>(&paths, &cold)?.value();
    let flux = exchange.flux(exchange.equilibrium());
    Ok([
        // Garcia & Gordon (1992), check value.
        (
            oxygen_solubility(&cold)?.value().umol_per_kg(),
            274.610,
            0.0005,
        ),
        // Fidler & Miller (1994), section 9.1.3.
        (gas.percent(), 110.0, 0.05),
        // NIST Statistical Reference Datasets, Misra1a.
        (fit.rate_per_hour().value, 5.5015643181e-4, 1e-13),
        // Water in equilibrium exchanges nothing.
        (flux.mmol_per_day(), 0.0, 0.0),
    ])
}

const MISRA1A: [(f64, f64); 14] = [
    (77.6, 10.07),
    (114.9, 14.73),
    (141.1, 17.94),
    (190.8, 23.93),
    (239.9, 29.61),
    (289.0, 35.18),
    (332.8, 40.02),
    (378.4, 44.82),
    (434.8, 50.76),
    (477.3, 55.05),
    (536.8, 61.01),
    (593.1, 66.40),
    (689.1, 75.47),
    (760.0, 81.78),
];

fn probe_and_kits() -> Result<[Computation; 3]> {
    let t = Temperature::from_celsius(given(25.0))?;
    let mv = ElectrodePotential::from_millivolts;
    let buffer =
        |ph, e| -> Result<_> { Ok(BufferReading::new(Ph::<NbsScale>::new(ph)?, mv(e)?, t)) };
    let calibration = ProbeCalibration::new(
        buffer(given(7.01), given(-15.0))?,
        buffer(given(4.01), given(160.0))?,
    )?;
    let reading = calibration.read(mv(given(160.0))?, t, &ProbeUncertainty::NBS_BUFFERS)?;

    let water = Water::new(t, PracticalSalinity::new(given(0.0))?);
    let ammonia = unionised_ammonia(
        &water,
        Ph::<TotalScale>::new(given(8.0))?,
        Content::from_umol_per_kg(given(1.0))?,
    )?;

    let density = water.density()?;
    let mg = Concentration::<form::NitrateAsNo3>::from_mg_per_l;
    let kit = KitPrecision::new(mg(given(1.0))?, mg(0.0)?, given(0.02))?;
    let nitrate = KitReading::measured(mg(given(5.0))?, &kit)?.estimate(density)?;
    let umol = Content::from_umol_per_kg;
    let nitrogen = dissolved_inorganic_nitrogen(
        nitrate,
        ContentEstimate::new(umol(given(0.0))?, umol(given(0.1))?),
        ContentEstimate::new(
            Content::from_umol_per_kg(given(0.0))?,
            Content::from_umol_per_kg(given(0.1))?,
        ),
    )?;
    let phosphate = ContentEstimate::new(
        Content::from_umol_per_kg(given(1.0))?,
        Content::from_umol_per_kg(given(0.1))?,
    );
    let ratio = NitrogenToPhosphorus::new(nitrogen, phosphate)?;
    Ok([
        // The probe shows in a buffer what it showed there.
        (reading.ph().value(), 4.01, 1e-12),
        // Clegg & Whitfield (1995), as the documentation of the R package wq prints it.
        (ammonia.fraction(), 0.0539, 0.00005),
        // 5 mg/L over 62.004 g/mol (IUPAC 2021) in a litre of 0.99705 kg.
        (ratio.value(), 80.88, 0.01),
    ])
}

fn dosing() -> Result<[Computation; 1]> {
    let water = water()?;
    let density = water.density()?;
    let tank = water.equilibria(&EquilibriumOptions::default())?.solve(
        Alkalinity::from_dkh(given(7.6), density)?,
        Ph::<TotalScale>::new(given(8.0))?,
    )?;
    let dose = Supplement::solution(Salt::SodiumBicarbonate, given(80.0))?
        .dose(Amount::Millilitres(given(50.0)))?;
    let system = DosedSystem::new(
        tank,
        Mass::from_kilograms(given(300.0))?,
        PartialPressureCo2::from_uatm(given(500.0))?,
    )?;
    let consumption = Consumption::by_calcification(
        alkalinity_fall_per_day(
            Alkalinity::from_dkh(given(8.0), density)?,
            Alkalinity::from_dkh(given(7.6), density)?,
            given(2.0),
        )?,
        CarbonateComposition::CALCIUM_ONLY,
    )?;
    let plan = system.fewest_doses(&[dose], consumption, &DoseLimits::default())?;
    // 4 g of NaHCO3 over 84.006 g/mol (IUPAC 2021).
    Ok([(plan.per_day().alkalinity_eq, 4.0 / 84.006, 3e-7)])
}

fn first_wrong() -> Result<i32> {
    let computations = carbonate_system()?
        .into_iter()
        .chain(salinity()?)
        .chain(gases()?)
        .chain(probe_and_kits()?)
        .chain(dosing()?);
    let mut number = 0;
    for (got, expected, tolerance) in computations {
        number += 1;
        // Written so that a result that is not a number fails too.
        let right = (got - expected).abs() <= tolerance;
        if !right {
            return Ok(number);
        }
    }
    Ok(0)
}

/// Zero when every computation came out right, else the number of the first
/// that did not; 100 when there was a refusal instead of a number.
#[unsafe(no_mangle)]
extern "C" fn run() -> i32 {
    first_wrong().unwrap_or(100)
}

#[cfg(target_arch = "x86_64")]
mod machine {
    use core::arch::{asm, global_asm};

    // The kernel enters with an aligned stack and no return address.
    global_asm!(
        ".globl _start",
        "_start:",
        "xor ebp, ebp",
        "and rsp, -16",
        "call run",
        "mov edi, eax",
        "mov eax, 60",
        "syscall",
        "ud2",
    );

    /// Stops the program on the spot.
    pub(super) fn abort() -> ! {
        // SAFETY: raises the illegal-instruction signal, nothing else.
        unsafe { asm!("ud2", options(noreturn)) }
    }
}

#[cfg(target_arch = "aarch64")]
mod machine {
    use core::arch::{asm, global_asm};

    global_asm!(
        ".globl _start",
        "_start:",
        "mov x29, xzr",
        "mov x30, xzr",
        "bl run",
        "mov x8, #93",
        "svc #0",
        "brk #1",
    );

    /// Stops the program on the spot.
    pub(super) fn abort() -> ! {
        // SAFETY: raises the trap signal, nothing else.
        unsafe { asm!("brk #1", options(noreturn)) }
    }
}

/// Elsewhere the program is linked, not run.
#[cfg(not(any(target_arch = "x86_64", target_arch = "aarch64")))]
mod machine {
    /// Stops the program on the spot.
    pub(super) fn abort() -> ! {
        loop {
            core::hint::spin_loop();
        }
    }
}

#[panic_handler]
fn panic(_: &PanicInfo<'_>) -> ! {
    machine::abort()
}
