//! Nutrients: forms and units of kits, ammonia, ratios, alkalinity of processes.
