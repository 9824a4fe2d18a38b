//! One line of a piece's log in plain words.

use crate::desk::Shop;
use crate::shape::FaceKey;
use crate::shop::What;

fn names(faces: impl Iterator<Item = FaceKey>) -> String {
    let names: Vec<String> = faces.map(|face| face.to_string()).collect();
    names.join(", ")
}

/// What was done, in words. `more` adds what a pass used, in the units of whoever reads it.
pub fn event_words(what: &What, shop: &Shop, more: &dyn Fn(&What) -> String) -> String {
    match what {
        What::Tick { face, grit } => format!("{grit} grit on {face}"),
        What::Untick { face, grit } => format!("took back {grit} grit on {face}"),
        What::Wipe { faces } => format!("wiped down {}", names(faces.iter().copied())),
        What::Coat {
            kind,
            product,
            faces,
            ..
        } => {
            let product = shop
                .product(*product)
                .map_or("a product", |p| p.name.as_str());
            let faces = names(faces.iter().map(|(face, _)| *face));
            format!("{}, {product}, on {faces}{}", kind.coat_word(), more(what))
        }
        What::WipeOff { faces } => format!("stain wiped off {}", names(faces.iter().copied())),
        What::Scuff { faces, means } => {
            format!(
                "scuffed {} with {}",
                names(faces.iter().copied()),
                means.words()
            )
        }
        What::Touch { faces, verdict } => {
            format!(
                "touch test of {}: {}",
                names(faces.iter().copied()),
                verdict.words()
            )
        }
        What::SandBack { faces, to, reason } => {
            format!(
                "sanded back {} to {to}: {reason}",
                names(faces.iter().copied())
            )
        }
        What::NotExposed { face, reason } => format!("{face} declared not exposed: {reason}"),
        What::Exposed { face } => format!("{face} exposed after all"),
        What::Reshaped { added, removed } => {
            let mut parts = Vec::new();
            if !added.is_empty() {
                parts.push(format!("new faces {}", names(added.iter().copied())));
            }
            if !removed.is_empty() {
                parts.push(format!("faces gone {}", names(removed.iter().copied())));
            }
            format!("shape changed: {}", parts.join("; "))
        }
        What::Moved { from, to } => format!("moved from {from} to {to}"),
        What::SetList { item, done: true } => format!("set list: {}", item.words()),
        What::SetList { item, done: false } => format!("set list, taken back: {}", item.words()),
    }
}
