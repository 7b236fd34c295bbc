//! Links without the C library and its start-up code.

fn main() {
    for argument in ["-nostartfiles", "-nostdlib", "-static", "-no-pie"] {
        println!("cargo::rustc-link-arg-bins={argument}");
    }
}
