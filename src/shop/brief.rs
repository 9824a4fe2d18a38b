//! One line of a log named in a few words, for sentences about it.

use super::event::What;
use crate::shape::FaceKey;

/// Faces in words: `top, left end`, or `9 faces` when the list grows long.
fn names<'f>(faces: impl ExactSizeIterator<Item = &'f FaceKey>) -> String {
    if faces.len() > 4 {
        return format!("{} faces", faces.len());
    }
    let names: Vec<String> = faces.map(ToString::to_string).collect();
    names.join(", ")
}

impl What {
    /// `220 grit on top`; `count` is how many ticks of one grit are meant together.
    pub fn brief(&self, count: usize) -> String {
        match self {
            Self::Tick { grit, .. } if count > 1 => format!("{grit} grit on {count} faces"),
            Self::Tick { face, grit } => format!("{grit} grit on {face}"),
            Self::Untick { face, grit } => format!("taking back {grit} grit on {face}"),
            Self::Wipe { faces } => format!("the wipe-down of {}", names(faces.iter())),
            Self::Coat { kind, faces, .. } => {
                let faces: Vec<FaceKey> = faces.iter().map(|(face, _)| *face).collect();
                format!("the {} on {}", kind.coat_word(), names(faces.iter()))
            }
            Self::WipeOff { faces } => format!("the wipe-off of {}", names(faces.iter())),
            Self::Scuff { faces, .. } => format!("the scuff of {}", names(faces.iter())),
            Self::Touch { faces, .. } => format!("the touch test of {}", names(faces.iter())),
            Self::SandBack { faces, to, .. } => {
                format!("the sand-back of {} to {to}", names(faces.iter()))
            }
            Self::NotExposed { face, .. } => format!("the declaration of {face}"),
            Self::Exposed { face } => format!("the withdrawal for {face}"),
            Self::Reshaped { .. } => "the change of shape".to_owned(),
            Self::Moved { to, .. } => format!("the move to {to}"),
            Self::SetList { item, .. } => format!("the set list's {}", item.words()),
        }
    }
}
