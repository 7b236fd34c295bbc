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
use halimeda::{
    Alkalinity, Composition, Content, PracticalSalinity, Result, Temperature, Water, species,
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

/// Every computation, what it must give and how closely.
fn computations() -> Result<[(f64, f64, f64); 6]> {
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

/// Zero when every computation came out right, else the number of the first
/// that did not; 100 when there was a refusal instead of a number.
#[unsafe(no_mangle)]
extern "C" fn run() -> i32 {
    let Ok(computations) = computations() else {
        return 100;
    };
    let mut number = 0;
    for (got, expected, tolerance) in computations {
        number += 1;
        // Written so that a result that is not a number fails too.
        let right = (got - expected).abs() <= tolerance;
        if !right {
            return number;
        }
    }
    0
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
