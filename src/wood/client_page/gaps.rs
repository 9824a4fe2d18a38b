//! The gaps and what they are for, and how the top is held.

use super::{ClientPage, ClientPageInput, Topic};
use crate::shape::Construction;
use crate::units::Length;
use crate::wood::movement::{
    Axis, Gap, HoldLine, MovementError, Situation, Surroundings, both, wall_gap,
};

/// The gap at a wall: what it is for, and how far it opens.
fn at_wall(place: &str, gap: &Gap) -> Option<String> {
    if gap.opens_to == Length::ZERO {
        return None;
    }
    if gap.leave == Length::ZERO {
        return Some(format!(
            "Where {place} meets a wall: the top is set at its widest, so a gap there only grows, by \
             up to {} in the dry season.",
            both(gap.opens_to)
        ));
    }
    Some(format!(
        "Where {place} meets a wall, the gap is there for the damp season: without at least {} the \
         top would push against the wall. In the dry season it opens to {} at most. Please do not \
         fill it with anything hard.",
        both(gap.leave),
        both(gap.opens_to)
    ))
}

/// An edge that moves with nothing before it: how far each way.
fn free_edge(place: &str, gap: &Gap) -> Option<String> {
    let inward = gap.opens_to - gap.leave;
    let ways: Vec<String> = [(gap.leave, "out", "damp"), (inward, "in", "dry")]
        .into_iter()
        .filter(|(by, ..)| *by > Length::ZERO)
        .map(|(by, way, season)| format!("{way} by up to {} in the {season} season", both(by)))
        .collect();
    let first = place.get(..1)?.to_uppercase();
    (!ways.is_empty()).then(|| format!("{first}{} moves {}.", &place[1..], ways.join(" and ")))
}

impl ClientPage {
    pub(super) fn tell_gap(&mut self, input: &ClientPageInput<'_>) -> Result<(), MovementError> {
        let back = self.gap;
        let front = wall_gap(&self.across, input.held.from_opposite());
        let blocks = input.build.construction == Construction::EndGrain;
        let Surroundings::Walls { ends } = input.surroundings else {
            let mut most = back.leave.max(front.leave);
            if blocks {
                most = most.max(input.gap_ends.leave);
            }
            let text = if most == Length::ZERO {
                "It stands free, so it needs no gap.".to_owned()
            } else {
                format!(
                    "It stands free, so it needs no gap: keep cabinets and trim at least {} from its \
                     edges, for the damp season.",
                    both(most)
                )
            };
            self.say(Topic::Gap, text);
            return Ok(());
        };
        let joined = !input.legs.is_empty();
        let of = |edge: &str| {
            if joined {
                format!("the {edge} of its run")
            } else {
                format!("its {edge}")
            }
        };
        let mut told: Vec<Option<String>> = Vec::new();
        if back.opens_to == Length::ZERO {
            told.push(Some(format!(
                "{} is held and does not move, so it needs no gap.",
                if joined {
                    "The back edge of its run"
                } else {
                    "Its back edge"
                }
            )));
        }
        told.push(at_wall(&of("back edge"), &back));
        told.push(free_edge(&of("front edge"), &front));
        for leg in input.legs {
            let year = input
                .build
                .year(Axis::Width, leg.width, input.today, &input.band)?;
            let gaps = [
                (leg.this, wall_gap(&year, input.held)),
                (leg.opposite, wall_gap(&year, input.held.from_opposite())),
            ];
            for (edge, gap) in gaps {
                let place = format!("the {edge} of its {}", leg.name);
                // Only an outer edge can meet a wall.
                told.push(if edge.starts_with("outer") {
                    at_wall(&place, &gap)
                } else {
                    free_edge(&place, &gap)
                });
            }
            let place = format!("the far end of its {}", leg.name);
            told.push(if ends {
                at_wall(&place, &leg.gap_end)
            } else {
                free_edge(&place, &leg.gap_end)
            });
        }
        if ends || blocks {
            let place = match input.legs.len() {
                1 => "the far end of its run",
                _ => "each end",
            };
            told.push(at_wall(place, &input.gap_ends));
        }
        for text in told.into_iter().flatten() {
            self.say(Topic::Gap, text);
        }
        Ok(())
    }

    pub(super) fn tell_hold(&mut self, input: &ClientPageInput<'_>) {
        let run = if input.legs.is_empty() {
            "It"
        } else {
            "Its run"
        };
        let text = match input.held {
            HoldLine::ThisEdge => format!("{run} is held at its back edge and moves at the front."),
            HoldLine::Middle => {
                format!("{run} is held along the middle, so that each edge moves only half.")
            }
            HoldLine::OppositeEdge => {
                format!("{run} is held at its front edge, so that the back takes the movement.")
            }
        };
        self.say(Topic::Hold, text);
        for leg in input.legs {
            let text = match input.held {
                HoldLine::ThisEdge => {
                    format!(
                        "Its {} is held at the {}, so that the {} moves.",
                        leg.name, leg.this, leg.opposite
                    )
                }
                HoldLine::Middle => format!("Its {} is held along the middle.", leg.name),
                HoldLine::OppositeEdge => {
                    format!(
                        "Its {} is held at the {}, so that the {} moves.",
                        leg.name, leg.opposite, leg.this
                    )
                }
            };
            self.say(Topic::Hold, text);
        }
        // A run that is joined at one corner is held there, not at the middle of its length.
        let one_corner = input.legs.len() == 1;
        let told = input
            .situations
            .iter()
            .filter(|of| !(one_corner && **of == Situation::BetweenWalls))
            .filter_map(|of| of.for_client());
        for text in told {
            self.say(Topic::Hold, text.to_owned());
        }
    }
}
