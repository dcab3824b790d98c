//! What a name was most likely meant to be.

/// Names that are less alike than this are not what was meant (Jaro–Winkler, 1 for equal; found by trying).
const ALIKE: f64 = 0.84;

/// The one of `names` that comes nearest to `written`, where one comes near.
pub fn nearest<'n>(written: &str, names: impl IntoIterator<Item = &'n str>) -> Option<&'n str> {
    let written = written.to_lowercase();
    let alike = |name: &&str| strsim::jaro_winkler(&written, &name.to_lowercase());
    let near = names.into_iter().map(|name| (alike(&name), name)).filter(|(alike, _)| *alike >= ALIKE);
    near.max_by(|(one, name), (other, name_of_other)| one.total_cmp(other).then(name_of_other.cmp(name)))
        .map(|(_, name)| name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_finds_its_word_and_another_word_finds_none() {
        let names = ["cup", "tablespoon", "pint", "degrees", "required-sections"];
        let table = [
            ("cups", Some("cup")),
            ("table-spoon", Some("tablespoon")),
            ("required_sections", Some("required-sections")),
            ("Degree", Some("degrees")),
            ("colour", None),
            ("", None),
        ];
        for (written, meant) in table {
            assert_eq!(nearest(written, names), meant, "{written}");
        }
    }
}
