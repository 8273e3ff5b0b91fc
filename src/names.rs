//! Names as people type them: case, hyphens, spaces and commas do not matter.

/// Folds a name to its letters and digits in lower case: `"N-Butyl Acetate"` becomes `"nbutylacetate"`.
///
/// ```
/// assert_eq!(mistcoat::names::fold("n-Butyl  Acetate"), mistcoat::names::fold("N butyl-acetate"));
/// ```
pub fn fold(name: &str) -> String {
    name.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase).collect()
}
