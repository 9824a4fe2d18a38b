//! Outlines and openings in words. How a length is written is the caller's choice.

use super::corner::{Corner, Corners, Cut};
use super::fitting::{Cabinet, Mount, Purpose, Reveal, Sink};
use super::forms::{LiveEdges, LiveSlab, Quad};
use super::opening::{Opening, OpeningKind};
use super::outline::Outline;
use super::profile::EdgeProfile;
use crate::units::Length;

/// How a length is written.
pub type Say<'s> = &'s dyn Fn(Length) -> String;

impl Outline {
    /// The outline in words: `98 3/8" x 25 1/2"`, `round, 36" across`, `L, 120" x 96", run 25"
    /// deep, leg 24" wide, open at the front right`.
    pub fn words(&self, say: Say<'_>) -> String {
        let sides = |length: &Length, width: &Length| format!("{} x {}", say(*length), say(*width));
        let plain = match self {
            Outline::Rectangle { length, width } | Outline::Cornered { length, width, .. } => {
                sides(length, width)
            }
            Outline::Circle { diameter } => format!("round, {} across", say(*diameter)),
            Outline::Oval { length, width } => format!("oval, {}", sides(length, width)),
            Outline::L(ell) => format!(
                "L, {}, run {} deep, leg {} wide, open at the {}",
                sides(&ell.length, &ell.width),
                say(ell.run),
                say(ell.leg),
                place(ell.open)
            ),
            Outline::U(cup) => format!(
                "U, {}, run {} deep, left leg {} wide, right leg {} wide",
                sides(&cup.length, &cup.width),
                say(cup.run),
                say(cup.left),
                say(cup.right)
            ),
            Outline::Quad(quad) => quad_words(quad, say),
            Outline::Live(slab) => live_words(slab, say),
        };
        let corners = self.corners();
        if corners.is_sharp() {
            plain
        } else {
            format!("{plain}, {}", corners.words(say))
        }
    }
}

/// Where a corner is, without the word: `front right`.
fn place(corner: Corner) -> String {
    corner.code().replace('-', " ")
}

fn quad_words(quad: &Quad, say: Say<'_>) -> String {
    let sides = [
        ("out of square, front", Some(quad.front)),
        ("right", Some(quad.right)),
        ("back", Some(quad.back)),
        ("left", Some(quad.left)),
        ("front left to back right", quad.rising),
        ("front right to back left", quad.falling),
    ];
    let words: Vec<String> = sides
        .into_iter()
        .filter_map(|(what, size)| Some(format!("{what} {}", say(size?))))
        .collect();
    words.join(", ")
}

fn live_words(slab: &LiveSlab, say: Say<'_>) -> String {
    let edges = match slab.edges {
        LiveEdges::Both => "both edges live",
        LiveEdges::Front => "live front edge",
        LiveEdges::Back => "live back edge",
    };
    let widths = || slab.stations.iter().map(|station| station.width);
    let (least, most) = (
        widths().min().unwrap_or_default(),
        widths().max().unwrap_or_default(),
    );
    format!(
        "slab, {} long, {} to {} wide at {} stations, {edges}",
        say(slab.length()),
        say(least),
        say(most),
        slab.stations.len()
    )
}

impl Corners {
    /// What is cut at which corners: `front left and front right corners round 2"`.
    pub fn words(&self, say: Say<'_>) -> String {
        let mut groups: Vec<(Cut, Vec<Corner>)> = Vec::new();
        for (corner, cut) in self.iter() {
            match groups.iter_mut().find(|(has, _)| *has == cut) {
                Some((_, corners)) => corners.push(corner),
                None => groups.push((cut, vec![corner])),
            }
        }
        let words: Vec<String> = groups
            .into_iter()
            .map(|(cut, corners)| {
                let cut = match cut {
                    Cut::Round(radius) => format!("rounded {}", say(radius)),
                    Cut::Clip { along, across } => {
                        format!("clipped {} x {}", say(along), say(across))
                    }
                    Cut::Notch { along, across } => {
                        format!("notched {} x {}", say(along), say(across))
                    }
                };
                if corners == Corner::OUTER {
                    return format!("all corners {cut}");
                }
                let names: Vec<String> = corners.into_iter().map(place).collect();
                let s = if names.len() == 1 { "" } else { "s" };
                format!("{} corner{s} {cut}", names.join(", "))
            })
            .collect();
        words.join(", ")
    }
}

impl EdgeProfile {
    /// The profile in words: `round-over 1/4"`.
    pub fn words(self, say: Say<'_>) -> String {
        match self {
            EdgeProfile::Square => self.name().to_owned(),
            sized => format!("{} {}", sized.name(), say(sized.reach())),
        }
    }
}

impl Opening {
    /// The form in words: `30" x 16", corner radius 3/4"`, `1 3/8" across`, with the profile of its
    /// edge where it has one: `..., edge round-over 1/4"`.
    pub fn form_words(&self, say: Say<'_>) -> String {
        let form = self.bare_words(say);
        match self.profile_words(say) {
            Some(profile) => format!("{form}, {profile}"),
            None => form,
        }
    }

    /// The profile of its edge: `edge round-over 1/4"`; nothing where it is square.
    pub fn profile_words(&self, say: Say<'_>) -> Option<String> {
        let profile = self.profile;
        (!profile.is_square()).then(|| format!("edge {}", profile.words(say)))
    }

    fn bare_words(&self, say: Say<'_>) -> String {
        match self.what {
            OpeningKind::Cutout {
                width,
                depth,
                corner_radius: Length::ZERO,
            } => format!("{} x {}, sharp corners", say(width), say(depth)),
            OpeningKind::Cutout {
                width,
                depth,
                corner_radius,
            } => format!(
                "{} x {}, corner radius {}",
                say(width),
                say(depth),
                say(corner_radius)
            ),
            OpeningKind::Hole { diameter } => format!("{} across", say(diameter)),
        }
    }

    /// What it is for, in words; nothing where that was not said. `undermount sink, negative
    /// reveal 3/8" (wood over the bowl), bowl 30 3/4" x 16 3/4", overall 33" x 19"`.
    pub fn purpose_words(&self, say: Say<'_>) -> Option<String> {
        match &self.purpose {
            Purpose::Plain => None,
            Purpose::Sink(sink) => Some(self.sink_words(sink, say)),
            other => Some(other.word().to_owned()),
        }
    }

    fn sink_words(&self, sink: &Sink, say: Say<'_>) -> String {
        let mut words = vec![format!("{} sink", sink.mount.word())];
        match sink.mount {
            Mount::DropIn => {}
            Mount::Undermount(reveal) | Mount::ApronFront(reveal) => words.push(match reveal {
                Reveal::Positive(by) => format!("positive reveal {} (rim shows)", say(by)),
                Reveal::Zero => "zero reveal (flush with the bowl)".to_owned(),
                Reveal::Negative(by) => {
                    format!("negative reveal {} (wood over the bowl)", say(by))
                }
            }),
        }
        if let Some((width, depth)) = self.bowl() {
            words.push(format!("bowl {} x {}", say(width), say(depth)));
        }
        if let Some((width, depth)) = sink.overall {
            words.push(format!("overall {} x {}", say(width), say(depth)));
        }
        if let Some(wall) = sink.wall {
            words.push(format!("sink wall {}", say(wall)));
        }
        if let Some(cabinet) = sink.cabinet {
            words.push(cabinet.words(say));
        }
        words.join(", ")
    }
}

impl Cabinet {
    /// The cabinet in words: `cabinet 36" wide, walls 3/4", front rail 3"`.
    pub fn words(&self, say: Say<'_>) -> String {
        let mut words = vec![
            format!("cabinet {} wide", say(self.width)),
            match self.wall {
                Some(wall) => format!("walls {}", say(wall)),
                None => format!("walls not measured, {} taken", say(self.wall_taken())),
            },
        ];
        for (what, size) in [
            ("front rail", Some(self.front_rail)),
            ("back rail", Some(self.back_rail)),
        ] {
            if let Some(size) = size.filter(|size| *size > Length::ZERO) {
                words.push(format!("{what} {}", say(size)));
            }
        }
        for (what, size) in [
            ("from the left end", self.left),
            ("behind the front edge", self.overhang),
            ("deep", self.depth),
        ] {
            if let Some(size) = size {
                words.push(format!("{} {what}", say(size)));
            }
        }
        words.join(", ")
    }
}
