//! A piece's log, led through the gates line by line: the only way into the store.

use super::error::{Fault, FilesError};
use super::faces::{all_faces, meant, reshaped, reshapes};
use super::import::Reading;
use super::keys::Ring;
use super::log::{Act, Entry, FILE};
use super::passes::{self, Part};
use crate::shape::FaceKey;
use crate::shop::{Event, EventId, Gates, Pass, PieceFile, Ticket, What};
use crate::units::{Area, AreaStyle, Volume};
use std::collections::HashSet;

/// An area written may be this many times what the piece has, or this part of it: a piece may have
/// been measured anew since, but not into another thing.
const AREA_TIMES: f64 = 100.0;
/// Beyond this it is told.
const AREA_TOLD: f64 = 2.0;

/// One piece being replayed.
pub(super) struct Replay<'a> {
    pub(super) gates: Gates<'a>,
    /// The keys of log lines so far, of all pieces.
    pub(super) lines: Ring<()>,
    pub(super) areas: AreaStyle,
}

impl Replay<'_> {
    /// Leads one piece's lines through the gates; its stage and whether it is finished follow.
    /// `place` is where the piece stands in the list, for the parts of its passes.
    pub(super) fn piece(
        &mut self,
        reading: &mut Reading<'_>,
        (place, called): (usize, &str),
        file: &mut PieceFile,
        entries: Vec<Entry>,
        passes: &mut [passes::Read],
    ) -> Result<(), FilesError> {
        let mut ticket = Ticket::blank(&file.piece, &file.schedule, &reshapes(&entries));
        let (started, last_line) = (
            !entries.is_empty(),
            entries.last().map_or(1, |entry| entry.line),
        );
        let mut coated: HashSet<(usize, FaceKey)> = HashSet::new();
        for entry in entries {
            let at = |fault: Fault| fault.at(FILE, entry.line);
            let keys = meant(&ticket, &entry, passes).map_err(at)?;
            if let Act::Coat { pass, .. } = &entry.act
                && let Some(face) = keys.iter().find(|key| !coated.insert((*pass, **key)))
            {
                let pass = passes
                    .get(*pass)
                    .map_or(String::new(), |read| read.key.clone());
                let (face, piece) = (face.to_string(), called.to_owned());
                return Err(at(Fault::TwoCoats { pass, face, piece }));
            }
            let whats = self
                .whats(reading, called, (&ticket, &entry), keys, passes)
                .map_err(at)?;
            let (mut blockers, mut ids) = (
                Vec::new(),
                self.ids(reading, &entry, whats.len()).map_err(at)?,
            );
            ids.reverse();
            for what in whats {
                let Some(id) = ids.pop() else { break };
                if file.events.last().is_some_and(|last| last.id >= id) {
                    return Err(at(Fault::Order));
                }
                let event = Event {
                    id,
                    at: entry.at,
                    what,
                };
                let refused = self.gates.check(&ticket, &event, reading.now);
                if refused.is_empty() {
                    ticket.fold(&event);
                    file.events.push(event);
                } else {
                    blockers.extend(refused);
                }
            }
            if !blockers.is_empty() {
                let (now, zone) = (reading.now, reading.zone);
                let reasons = blockers
                    .iter()
                    .map(|blocker| blocker.words(now, zone))
                    .collect();
                return Err(at(Fault::Refused {
                    piece: called.to_owned(),
                    blockers,
                    reasons,
                }));
            }
            if let (Act::Coat { pass, used, .. }, Some(event)) = (&entry.act, file.events.last())
                && let (What::Coat { faces, .. }, Some(read)) = (&event.what, passes.get_mut(*pass))
            {
                let m2 = faces.iter().map(|(_, area)| area.m2()).sum();
                let (event, used, line) = (file.events.len() - 1, *used, entry.line);
                read.parts.push(Part {
                    piece: place,
                    event,
                    m2,
                    used,
                    line,
                });
            }
        }
        all_faces(&ticket, file, called).map_err(|fault| fault.at(FILE, last_line))?;
        file.piece.stage = ticket.stage;
        file.piece.finished = ticket.finished.is_some();
        if started {
            file.piece
                .schedule
                .get_or_insert_with(|| file.schedule.clone());
        }
        Ok(())
    }

    /// The identifiers of the events that a line becomes.
    fn ids(
        &mut self,
        reading: &mut Reading<'_>,
        entry: &Entry,
        count: usize,
    ) -> Result<Vec<EventId>, Fault> {
        if entry.key.is_empty() {
            return Ok((0..count).map(|_| EventId(reading.keys.mint())).collect());
        }
        self.lines.hang(&entry.key, ())?;
        let first = reading
            .keys
            .of(&entry.key)
            .ok_or_else(|| self.lines.twice(&entry.key))?;
        let rest = (1..count).map(|_| EventId(reading.keys.mint()));
        Ok(std::iter::once(EventId(first)).chain(rest).collect())
    }

    /// What a line says, as events.
    fn whats(
        &self,
        reading: &mut Reading<'_>,
        called: &str,
        (ticket, entry): (&Ticket, &Entry),
        faces: Vec<FaceKey>,
        passes: &[passes::Read],
    ) -> Result<Vec<What>, Fault> {
        let one = |what: &'static str| match faces.as_slice() {
            [face] => Ok(*face),
            _ => Err(Fault::Value {
                what: "faces",
                why: format!("{what} names one face."),
            }),
        };
        Ok(match &entry.act {
            Act::Tick(grit) if faces.is_empty() => {
                let why = format!("no face is due for {grit} grit here; name the faces.");
                return Err(Fault::Value { what: "faces", why });
            }
            Act::Tick(grit) => faces
                .iter()
                .map(|face| What::Tick {
                    face: *face,
                    grit: *grit,
                })
                .collect(),
            Act::Untick(grit) => vec![What::Untick {
                face: one("an untick")?,
                grit: *grit,
            }],
            Act::Wipe => vec![What::Wipe { faces }],
            Act::Coat { pass, areas, .. } => {
                let pass = passes.get(*pass).map(|read| read.pass.clone());
                let Some(pass) = pass else {
                    return Ok(Vec::new());
                };
                let faces = self.areas(
                    reading,
                    called,
                    (ticket, entry.line),
                    &faces,
                    areas.as_deref(),
                )?;
                vec![coat(&pass, faces)]
            }
            Act::WipeOff => vec![What::WipeOff { faces }],
            Act::Scuff(means) => vec![What::Scuff {
                faces,
                means: *means,
            }],
            Act::Touch(verdict) => vec![What::Touch {
                faces,
                verdict: *verdict,
            }],
            Act::SandBack { to, reason } => {
                vec![What::SandBack {
                    faces,
                    to: *to,
                    reason: reason.clone(),
                }]
            }
            Act::NotExposed { reason } => {
                vec![What::NotExposed {
                    face: one("this")?,
                    reason: reason.clone(),
                }]
            }
            Act::Exposed => vec![What::Exposed { face: one("this")? }],
            Act::Reshaped { removed } => {
                reshaped(ticket, called, &faces, removed)?;
                vec![What::Reshaped {
                    added: faces,
                    removed: removed.clone(),
                }]
            }
            Act::Moved { from, to } => {
                vec![What::Moved {
                    from: from.unwrap_or(ticket.stage),
                    to: *to,
                }]
            }
            Act::SetList { item, done } => vec![What::SetList {
                item: *item,
                done: *done,
            }],
        })
    }

    /// The coated faces with their areas: as written, or as the piece has them.
    fn areas(
        &self,
        reading: &mut Reading<'_>,
        called: &str,
        (ticket, line): (&Ticket, u64),
        faces: &[FaceKey],
        said: Option<&[Area]>,
    ) -> Result<Vec<(FaceKey, Area)>, Fault> {
        if said.is_some_and(|said| said.len() != faces.len()) {
            let why = "write one area for each face, in the same order.".to_owned();
            return Err(Fault::Value {
                what: "areas_m2",
                why,
            });
        }
        let mut out = Vec::new();
        for (i, face) in faces.iter().enumerate() {
            let has = ticket
                .face(*face)
                .map(|state| state.area)
                .filter(|area| area.m2() > 0.0);
            let area = match (said.and_then(|said| said.get(i)), has) {
                (Some(said), Some(has)) => {
                    let times = (said.m2() / has.m2()).max(has.m2() / said.m2());
                    let show = |area: &Area| area.show(self.areas);
                    if times > AREA_TIMES {
                        let (piece, face) = (called.to_owned(), face.to_string());
                        return Err(Fault::Area {
                            piece,
                            face,
                            said: show(said),
                            has: show(&has),
                        });
                    }
                    if times > AREA_TOLD {
                        reading.notes.say(format!(
                            "{FILE}, line {line}: {called}: {face} had {} then and has {} now.",
                            show(said),
                            show(&has)
                        ));
                    }
                    *said
                }
                (Some(said), None) => *said,
                (None, Some(has)) => has,
                // No such face, which the gates say better; or one that is gone since.
                (None, None) if ticket.face(*face).is_none() => Area::ZERO,
                (None, None) => {
                    let why = format!("the piece has no {face} any more, so write its area.");
                    return Err(Fault::Value {
                        what: "areas_m2",
                        why,
                    });
                }
            };
            out.push((*face, area));
        }
        Ok(out)
    }
}

fn coat(pass: &Pass, faces: Vec<(FaceKey, Area)>) -> What {
    What::Coat {
        pass: pass.id,
        kind: pass.kind,
        product: pass.product,
        faces,
        started: pass.started,
        // Settled when all the pieces of the pass are known.
        used: Volume::ZERO,
    }
}
