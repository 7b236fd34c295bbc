use crate::parameter::parameters;

parameters! {
    /// How fast gases pass between the water of a tank and the air, for oxygen at
    /// 20 °C; see [`ExchangePath`](crate::gas::ExchangePath) for other gases and
    /// temperatures.
    GasTransfer {
        /// Transfer velocity of a stirred open surface.
        surface_cm_per_h = 3.0 in 1.0..5.0, "cm/h", "stirred surfaces 1 to 5 cm/h, from memory";
        /// Transfer velocity of a film falling over turf.
        film_cm_per_h = 20.0 in 10.0..40.0, "cm/h",
            "penetration theory (Higbie 1935), 20 cm/h at one second of contact, derived";
        /// Share of the water over an overflow that comes to equilibrium with the air.
        overflow_equilibrated_share = 0.15 in 0.05..0.40 max 1.0, "1",
            "short falls, weak, from memory";
        /// Share of the water through a foam fractionator that comes to equilibrium
        /// with the air it draws.
        foam_equilibrated_share = 0.3 in 0.1..0.6 max 1.0, "1",
            "bubble columns of a few decimetres, weak, from memory";
    }
}
