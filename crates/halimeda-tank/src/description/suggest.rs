/// Longer names are no misspelling of anything here.
const MAX_LENGTH: usize = 64;

/// The candidate that a misspelt name is closest to, if it is close.
pub(crate) fn nearest<'c>(
    name: &str,
    candidates: impl IntoIterator<Item = &'c str>,
) -> Option<&'c str> {
    if name.len() > MAX_LENGTH {
        return None;
    }
    let plain = |text: &str| text.to_lowercase().replace(['-', ' ', '.'], "_");
    let name = plain(name);
    candidates
        .into_iter()
        .map(|candidate| (strsim::osa_distance(&name, &plain(candidate)), candidate))
        // A third of the letters wrong is another word.
        .filter(|(distance, candidate)| 3 * distance <= candidate.chars().count().max(3))
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, candidate)| candidate)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn close_names_are_found_and_others_are_not() {
        let keys = ["net_volume", "temperature", "salinity", "kH"];
        for (name, found) in [
            ("net_volme", Some("net_volume")),
            ("Net-Volume", Some("net_volume")),
            ("tempreature", Some("temperature")),
            ("kh", Some("kH")),
            ("colour", None),
            ("", None),
        ] {
            assert_eq!(nearest(name, keys), found, "{name}");
        }
        assert_eq!(nearest(&"x".repeat(1_000_000), keys), None);
    }
}
