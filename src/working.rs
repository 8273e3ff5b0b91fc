//! The steps behind a result: formula, the numbers put in, the outcome with its unit, the source.
//!
//! A result that can explain itself teaches: print [`Working::to_text`] at the bench, show
//! [`Working::to_html`] in a notebook, paste [`Working::to_latex`] into a handout.
//!
//! ```
//! use mistcoat::working::{Step, Working};
//! let mut w = Working::new("Kinematic viscosity from a cup time");
//! w.push(Step::new("cup equation", "ν = a t − b/t", r"\nu = a\,t - b/t")
//!     .numbers("1.37 × 35 − 200/35").result("42.2 mm2/s").source("ISO2431"));
//! assert!(w.to_text().contains("ISO 2431"));
//! ```

use crate::source;
use serde::{Deserialize, Serialize};
use std::fmt::Write as _;

/// One step.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Step {
    /// What is done.
    pub name: String,
    /// The formula in plain text.
    pub formula: String,
    /// The formula in LaTeX.
    pub latex: String,
    /// The formula with the numbers in it.
    pub numbers: String,
    /// The outcome with its unit.
    pub result: String,
    /// Source key or citation; empty for plain arithmetic.
    pub source: String,
}

impl Step {
    /// Starts a step with its name and its formula in plain text and in LaTeX.
    pub fn new(name: impl Into<String>, formula: impl Into<String>, latex: impl Into<String>) -> Self {
        Self {
            name: name.into(),
            formula: formula.into(),
            latex: latex.into(),
            numbers: String::new(),
            result: String::new(),
            source: String::new(),
        }
    }

    /// The formula with the numbers in it.
    #[must_use]
    pub fn numbers(mut self, text: impl Into<String>) -> Self {
        self.numbers = text.into();
        self
    }

    /// The outcome with its unit.
    #[must_use]
    pub fn result(mut self, text: impl Into<String>) -> Self {
        self.result = text.into();
        self
    }

    /// The source key, or a citation in full.
    #[must_use]
    pub fn source(mut self, key: impl Into<String>) -> Self {
        self.source = key.into();
        self
    }
}

/// The steps of one result, in order.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Working {
    /// What was worked out.
    pub title: String,
    /// The steps.
    pub steps: Vec<Step>,
}

impl Working {
    /// An empty working.
    pub fn new(title: impl Into<String>) -> Self {
        Self { title: title.into(), steps: Vec::new() }
    }

    /// Adds a step.
    pub fn push(&mut self, step: Step) {
        self.steps.push(step);
    }

    /// Adds all steps of another working.
    pub fn append(&mut self, other: Self) {
        self.steps.extend(other.steps);
    }

    /// Plain text for a terminal.
    pub fn to_text(&self) -> String {
        let mut out = format!("{}\n", self.title);
        for (i, s) in self.steps.iter().enumerate() {
            let _ = writeln!(out, "{:>2}. {}", i + 1, s.name);
            let _ = writeln!(out, "    {}", s.formula);
            if !s.numbers.is_empty() {
                let _ = writeln!(out, "    = {}", s.numbers);
            }
            let _ = writeln!(out, "    = {}", s.result);
            if !s.source.is_empty() {
                let _ = writeln!(out, "    source: {}", source::cite(&s.source));
            }
        }
        out
    }

    /// An HTML fragment without styles of its own, safe to embed.
    pub fn to_html(&self) -> String {
        let mut out = format!("<div class=\"mistcoat-working\"><h4>{}</h4><ol>", escape_html(&self.title));
        for s in &self.steps {
            let _ = write!(
                out,
                "<li><b>{}</b><br><code>{}</code>",
                escape_html(&s.name),
                escape_html(&s.formula)
            );
            if !s.numbers.is_empty() {
                let _ = write!(out, "<br>= {}", escape_html(&s.numbers));
            }
            let _ = write!(out, "<br>= <b>{}</b>", escape_html(&s.result));
            if !s.source.is_empty() {
                let _ = write!(out, "<br><small>{}</small>", escape_html(&source::cite(&s.source)));
            }
            out.push_str("</li>");
        }
        out.push_str("</ol></div>");
        out
    }

    /// LaTeX: an enumerate with one display formula a step; needs the package `amsmath`.
    pub fn to_latex(&self) -> String {
        let mut out = format!("\\paragraph{{{}}}\n\\begin{{enumerate}}\n", escape_latex(&self.title));
        for s in &self.steps {
            let _ = writeln!(out, "\\item {}", escape_latex(&s.name));
            // Formula, numbers and result under one another: one line of all three runs off the page.
            let _ = write!(out, "\\[ \\begin{{aligned}} & {}", s.latex);
            for line in [&s.numbers, &s.result].into_iter().filter(|line| !line.is_empty()) {
                let _ = write!(
                    out,
                    " \\\\ &= \\parbox[t]{{0.8\\linewidth}}{{\\raggedright {}}}",
                    escape_latex(line)
                );
            }
            out.push_str(" \\end{aligned} \\]\n");
            if !s.source.is_empty() {
                let _ = writeln!(out, "{{\\small {}}}", escape_latex(&source::cite(&s.source)));
            }
        }
        out.push_str("\\end{enumerate}\n");
        out
    }
}

impl core::fmt::Display for Working {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(&self.to_text())
    }
}

/// Makes text safe inside HTML.
pub fn escape_html(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

/// Signs of formulas that plain LaTeX does not read as text, and what it reads in math mode.
const SIGNS: [(char, &str); 46] = [
    ('α', r"\alpha"),
    ('β', r"\beta"),
    ('γ', r"\gamma"),
    ('δ', r"\delta"),
    ('ε', r"\varepsilon"),
    ('η', r"\eta"),
    ('κ', r"\kappa"),
    ('λ', r"\lambda"),
    ('μ', r"\mu"),
    ('ν', r"\nu"),
    ('π', r"\pi"),
    ('ρ', r"\rho"),
    ('σ', r"\sigma"),
    ('τ', r"\tau"),
    ('φ', r"\varphi"),
    ('χ', r"\chi"),
    ('ψ', r"\psi"),
    ('ω', r"\omega"),
    ('Γ', r"\Gamma"),
    ('Δ', r"\Delta"),
    ('Σ', r"\Sigma"),
    ('Φ', r"\Phi"),
    ('Ψ', r"\Psi"),
    ('µ', r"\mu"),
    ('×', r"\times"),
    ('±', r"\pm"),
    ('√', r"\surd"),
    ('·', r"\cdot"),
    ('⋅', r"\cdot"),
    ('≤', r"\le"),
    ('≥', r"\ge"),
    ('≈', r"\approx"),
    ('∞', r"\infty"),
    ('−', r"-"),
    ('°', r"^\circ"),
    ('ᵢ', r"_i"),
    ('½', r"\frac12"),
    ('⅓', r"\frac13"),
    ('⅔', r"\frac23"),
    ('¼', r"\frac14"),
    ('¾', r"\frac34"),
    ('⁰', r"^0"),
    ('¹', r"^1"),
    ('²', r"^2"),
    ('³', r"^3"),
    ('⁴', r"^4"),
];

fn escape_latex(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '\\' => out.push_str("\\textbackslash{}"),
            '%' | '&' | '#' | '_' | '{' | '}' | '$' => {
                out.push('\\');
                out.push(c);
            }
            '^' => out.push_str("\\^{}"),
            '~' => out.push_str("\\~{}"),
            '–' => out.push_str("--"),
            c => match SIGNS.iter().find(|(sign, _)| *sign == c) {
                Some((_, latex)) => {
                    out.push('$');
                    out.push_str(latex);
                    out.push('$');
                }
                None => out.push(c),
            },
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_forms_carry_the_same_facts() {
        let mut w = Working::new("R&D <1>");
        w.push(Step::new("solids", "VS' = x VS", r"VS' = x\,VS").numbers("50 % × 0.3").result("15 %"));
        assert!(w.to_text().contains("50 % × 0.3"));
        assert!(w.to_html().contains("R&amp;D &lt;1&gt;"));
        assert!(w.to_latex().contains(r"50 \% $\times$ 0.3"));
    }

    #[test]
    fn latex_knows_every_sign_of_the_formulas() {
        let mut w = Working::new("γ");
        w.push(Step::new("√", "", "x").numbers("√(η²) 21 °C, 25 µm, 14–29").result("η ± Δ, ⅓"));
        let latex = w.to_latex();
        assert!(latex.is_ascii(), "{latex}");
        assert!(latex.contains(r"$\surd$($\eta$$^2$) 21 $^\circ$C, 25 $\mu$m, 14--29"), "{latex}");
    }
}
