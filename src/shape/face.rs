//! The faces of a piece: their keys, words and codes, and the group each is finished
//! with.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use super::corner::Corner;
use super::grain::FaceGrain;
use crate::units::Area;

/// Which face of a piece. The order is the order faces are listed in everywhere.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub enum FaceKey {
    /// The show side.
    Top,
    /// The whole underside, when it is not split.
    Underside,
    /// The outer strip of a split underside.
    Band,
    /// The rest of a split underside.
    Field,
    /// The edge at the front, along the grain.
    Front,
    /// The edge at the back, along the grain.
    Back,
    /// The end at the left, across the grain.
    Left,
    /// The end at the right, across the grain.
    Right,
    /// The right leg's part of the front of a U.
    LegFront,
    /// The edge along the grain inside a notch of this corner, inside an L open there, or inside
    /// a U (which says [`Corner::InsideLeft`]).
    InnerEdge(Corner),
    /// The end across the grain inside a notch of this corner, inside an L open there, or of one
    /// of the legs of a U.
    InnerEnd(Corner),
    /// A corner that is rounded or clipped.
    Corner(Corner),
    /// The live edge at the front.
    LiveFront,
    /// The live edge at the back.
    LiveBack,
    /// The whole edge of a round or oval top.
    Rim,
    /// The wall of the cutout with this number.
    Cutout(u8),
    /// The wall of the hole with this number.
    Hole(u8),
}

/// A text that is no face code.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error(
    "{0:?} is no face: say top, underside, band, field, front, back, left, right, rim, cutout-1 or hole-1 (an L, a U or a cut corner has more: inner-edge, inner-end, corner, live-front)"
)]
pub struct UnknownFace(
    /// The text as given.
    pub String,
);

impl FaceKey {
    /// The stable code, as stored and as typed: "top", "band", "cutout-1"...
    pub fn code(self) -> String {
        match self {
            FaceKey::Cutout(no) => format!("cutout-{no}"),
            FaceKey::Hole(no) => format!("hole-{no}"),
            FaceKey::InnerEdge(corner) | FaceKey::InnerEnd(corner) | FaceKey::Corner(corner) => {
                format!("{}-{}", self.plain_code(), corner.code())
            }
            plain => plain.plain_code().to_owned(),
        }
    }

    fn plain_code(self) -> &'static str {
        match self {
            FaceKey::Top => "top",
            FaceKey::Underside => "underside",
            FaceKey::Band => "band",
            FaceKey::Field => "field",
            FaceKey::Front => "front",
            FaceKey::Back => "back",
            FaceKey::Left => "left",
            FaceKey::Right => "right",
            FaceKey::LegFront => "leg-front",
            FaceKey::InnerEdge(_) => "inner-edge",
            FaceKey::InnerEnd(_) => "inner-end",
            FaceKey::Corner(_) => "corner",
            FaceKey::LiveFront => "live-front",
            FaceKey::LiveBack => "live-back",
            FaceKey::Rim => "rim",
            FaceKey::Cutout(_) => "cutout",
            FaceKey::Hole(_) => "hole",
        }
    }

    /// Whether the face is part of the outside edge.
    pub fn is_outside(self) -> bool {
        !matches!(
            self,
            FaceKey::Top
                | FaceKey::Underside
                | FaceKey::Band
                | FaceKey::Field
                | FaceKey::Cutout(_)
                | FaceKey::Hole(_)
        )
    }

    /// Whether these outside faces can go all the way round a top: a rim alone, or the four sides,
    /// each itself or taken up by a live edge or by what is cut at one of its corners.
    pub fn go_round(faces: &[FaceKey]) -> bool {
        let has = |face: FaceKey| faces.contains(&face);
        if has(FaceKey::Rim) {
            return faces.iter().filter(|face| face.is_outside()).count() == 1;
        }
        let [fl, fr, br, bl] = Corner::OUTER;
        let sides = [
            (FaceKey::Front, Some(FaceKey::LiveFront), [fl, fr]),
            (FaceKey::Back, Some(FaceKey::LiveBack), [br, bl]),
            (FaceKey::Left, None, [fl, bl]),
            (FaceKey::Right, None, [fr, br]),
        ];
        sides.into_iter().all(|(side, live, corners)| {
            let cut = |corner| {
                has(FaceKey::Corner(corner))
                    || has(FaceKey::InnerEdge(corner)) && has(FaceKey::InnerEnd(corner))
            };
            has(side) != live.is_some_and(has) || !has(side) && corners.into_iter().any(cut)
        })
    }

    /// The group the face is finished with. It follows from the place of the face alone, so every
    /// face has one whatever the construction: on an end-grain top the top stays a show face, and
    /// its ends stay with the end grain though their grain runs long.
    pub fn group(self) -> FaceGroup {
        match self {
            FaceKey::Top
            | FaceKey::Front
            | FaceKey::Back
            | FaceKey::LegFront
            | FaceKey::InnerEdge(_)
            | FaceKey::LiveFront
            | FaceKey::LiveBack
            | FaceKey::Band => FaceGroup::Show,
            FaceKey::Left
            | FaceKey::Right
            | FaceKey::InnerEnd(_)
            | FaceKey::Corner(_)
            | FaceKey::Rim
            | FaceKey::Cutout(_)
            | FaceKey::Hole(_) => FaceGroup::EndGrain,
            FaceKey::Underside | FaceKey::Field => FaceGroup::Underside,
        }
    }
}

impl fmt::Display for FaceKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let words = match self {
            FaceKey::Top => "top",
            FaceKey::Underside => "underside",
            FaceKey::Band => "underside band",
            FaceKey::Field => "underside field",
            FaceKey::Front => "front edge",
            FaceKey::Back => "back edge",
            FaceKey::Left => "left end",
            FaceKey::Right => "right end",
            FaceKey::LegFront => "right leg's front edge",
            FaceKey::InnerEdge(at) => return f.pad(&format!("inner edge{}", nook(*at))),
            FaceKey::InnerEnd(at) => return f.pad(&format!("inner end{}", nook(*at))),
            FaceKey::Corner(corner) => return corner.fmt(f),
            FaceKey::LiveFront => "live front edge",
            FaceKey::LiveBack => "live back edge",
            FaceKey::Rim => "rim",
            FaceKey::Cutout(no) => return f.pad(&format!("cutout {no} wall")),
            FaceKey::Hole(no) => return f.pad(&format!("hole {no} wall")),
        };
        f.pad(words)
    }
}

/// Where an inner face lies, behind its name.
fn nook(at: Corner) -> &'static str {
    match at {
        Corner::FrontLeft => ", front left",
        Corner::FrontRight => ", front right",
        Corner::BackRight => ", back right",
        Corner::BackLeft => ", back left",
        Corner::InsideLeft | Corner::LegLeft => ", left",
        Corner::InsideRight | Corner::LegRight => ", right",
        Corner::Inside | Corner::Leg | Corner::Run => "",
    }
}

impl FromStr for FaceKey {
    type Err = UnknownFace;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        const PLAIN: [FaceKey; 12] = [
            FaceKey::Top,
            FaceKey::Underside,
            FaceKey::Band,
            FaceKey::Field,
            FaceKey::Front,
            FaceKey::Back,
            FaceKey::Left,
            FaceKey::Right,
            FaceKey::LegFront,
            FaceKey::LiveFront,
            FaceKey::LiveBack,
            FaceKey::Rim,
        ];
        let plain = PLAIN.into_iter().find(|key| key.plain_code() == text);
        let numbered = || {
            let (word, digits) = text.split_once('-')?;
            let no = digits.parse::<u8>().ok()?;
            let key = match word {
                "cutout" => FaceKey::Cutout(no),
                "hole" => FaceKey::Hole(no),
                _ => return None,
            };
            // One face, one code: "hole-01" and "hole-+1" are not accepted.
            (key.code() == text).then_some(key)
        };
        let cornered = || {
            type Make = fn(Corner) -> FaceKey;
            let makes: [(&str, Make); 3] = [
                ("inner-edge-", FaceKey::InnerEdge),
                ("inner-end-", FaceKey::InnerEnd),
                ("corner-", FaceKey::Corner),
            ];
            makes.into_iter().find_map(|(word, make)| {
                text.strip_prefix(word).and_then(Corner::of_code).map(make)
            })
        };
        plain
            .or_else(numbered)
            .or_else(cornered)
            .ok_or_else(|| UnknownFace(text.to_owned()))
    }
}

impl TryFrom<String> for FaceKey {
    type Error = UnknownFace;

    fn try_from(text: String) -> Result<Self, Self::Error> {
        text.parse()
    }
}

impl From<FaceKey> for String {
    fn from(key: FaceKey) -> String {
        key.code()
    }
}

/// Faces that a finish schedule treats alike.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FaceGroup {
    /// Top, long edges and the underside band: what is seen.
    Show,
    /// Ends, rim and the walls of openings: what drinks.
    EndGrain,
    /// The underside, or its field when it has a band.
    Underside,
}

impl FaceGroup {
    /// All groups, in order.
    pub const ALL: [FaceGroup; 3] = [FaceGroup::Show, FaceGroup::EndGrain, FaceGroup::Underside];
}

impl fmt::Display for FaceGroup {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            FaceGroup::Show => "show faces",
            FaceGroup::EndGrain => "end grain",
            FaceGroup::Underside => "underside",
        })
    }
}

/// One face of a piece.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Face {
    /// Which.
    pub key: FaceKey,
    /// How the fibres meet it.
    pub grain: FaceGrain,
    /// Its surface, profile included.
    pub area: Area,
}

impl Face {
    /// The group the face is finished with: see [`FaceKey::group`].
    pub fn group(&self) -> FaceGroup {
        self.key.group()
    }
}
