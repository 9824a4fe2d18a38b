//! Makes people, pieces and their logs, the way work goes.

use super::sample::{date, now};
use chrono::{DateTime, Duration, Utc};
use tackfree::coating::id::Mint;
use tackfree::desk::Shop;
use tackfree::shape::{Construction, FaceKey, Shape};
use tackfree::shop::{
    Amount, AmountBasis, Client, ClientId, CoatKind, Event, EventId, Job, JobId, Pass, PassId,
    Piece, PieceFile, PieceId, PieceKind, Stage, Ticket, What,
};
use tackfree::units::{Area, Volume};
use uuid::Uuid;

/// Adds pieces with their logs.
pub struct Maker {
    pub shop: Shop,
    pub mint: Mint,
}

impl Maker {
    fn id(&mut self) -> Uuid {
        self.mint.next(now().timestamp_millis())
    }

    pub fn client(&mut self, name: &str, phone: &str, notes: &str) -> ClientId {
        let id = ClientId(self.id());
        self.shop.clients.push(Client {
            id,
            name: name.to_owned(),
            phone: phone.to_owned(),
            email: String::new(),
            address: "4 Mill Row\nUpper Fenwick".to_owned(),
            notes: notes.to_owned(),
        });
        id
    }

    pub fn job(&mut self, no: u32, client: ClientId, title: &str, promised: Option<i64>) -> JobId {
        let id = JobId(self.id());
        self.shop.jobs.push(Job {
            id,
            no,
            client,
            title: title.to_owned(),
            site: "9 Quarry Lane, Upper Fenwick".to_owned(),
            house_built: (no == 12).then_some(1962),
            promised: promised.map(date),
            notes: "Key under the bench.\nNo work before eight.".to_owned(),
            taken: date(-30),
        });
        id
    }

    pub fn piece(&mut self, job: JobId, no: u32, name: &str, recipe: usize, shape: Shape) -> usize {
        let recipe = self.shop.recipes[recipe].clone();
        let piece = Piece {
            id: PieceId(self.id()),
            job,
            no,
            name: name.to_owned(),
            kind: PieceKind::ALL[no as usize],
            species: "hard maple".to_owned(),
            construction: Construction::EdgeGrain,
            shape,
            recipe: recipe.id,
            schedule: None,
            stage: Stage::Sanding,
            finished: false,
        };
        self.shop.files.push(PieceFile {
            piece,
            schedule: recipe.schedule,
            events: Vec::new(),
        });
        self.shop.files.len() - 1
    }

    pub fn log(&mut self, file: usize, at: DateTime<Utc>, what: What) {
        let id = EventId(self.id());
        let file = &mut self.shop.files[file];
        file.events.push(Event { id, at, what });
        let ticket = Ticket::of(file);
        file.piece.stage = ticket.stage;
        file.piece.finished = ticket.finished.is_some();
        file.piece.schedule = Some(file.schedule.clone());
    }

    /// Every grit on every face that the schedule asks, then the wipe-down.
    pub fn sand(&mut self, file: usize, at: DateTime<Utc>) {
        let ticket = Ticket::of(&self.shop.files[file]);
        for face in &ticket.faces {
            for grit in ticket.plan(face).grits.clone() {
                self.log(
                    file,
                    at,
                    What::Tick {
                        face: face.key,
                        grit,
                    },
                );
            }
        }
        let faces = ticket.faces.iter().map(|face| face.key).collect();
        self.log(file, at, What::Wipe { faces });
    }

    pub fn move_on(&mut self, file: usize, at: DateTime<Utc>) {
        let ticket = Ticket::of(&self.shop.files[file]);
        let to = ticket.schedule.next_stage(ticket.stage).unwrap();
        self.log(
            file,
            at,
            What::Moved {
                from: ticket.stage,
                to,
            },
        );
    }

    /// One pass over the faces that are due on these pieces.
    pub fn coat(
        &mut self,
        files: &[usize],
        kind: CoatKind,
        ended: DateTime<Utc>,
        basis: AmountBasis,
    ) {
        let pass = PassId(self.id());
        let started = ended - Duration::minutes(30);
        let product = self.shop.files[files[0]]
            .schedule
            .product_for(kind)
            .unwrap();
        let rate = self.shop.product(product).unwrap().label.spread;
        let mut total = Volume::from_ul(0);
        for &file in files {
            let ticket = Ticket::of(&self.shop.files[file]);
            let faces: Vec<(FaceKey, Area)> = ticket
                .due_faces(kind)
                .into_iter()
                .map(|key| (key, ticket.face(key).unwrap().area))
                .collect();
            let used = rate.volume_for(faces.iter().map(|(_, area)| *area).sum());
            total += used;
            self.log(
                file,
                ended,
                What::Coat {
                    pass,
                    kind,
                    product,
                    faces,
                    started,
                    used,
                },
            );
        }
        let amount = Amount {
            volume: total,
            basis,
        };
        self.shop.passes.push(Pass {
            id: pass,
            kind,
            product,
            started,
            ended,
            amount,
            air: None,
            drawn: tackfree::shop::Drawn::default(),
        });
    }

    pub fn wipe_off(&mut self, file: usize, at: DateTime<Utc>) {
        let ticket = Ticket::of(&self.shop.files[file]);
        let wet = |face: &&tackfree::shop::FaceState| {
            face.last_coat()
                .is_some_and(|coat| coat.kind == CoatKind::Stain)
        };
        let faces = ticket
            .faces
            .iter()
            .filter(wet)
            .map(|face| face.key)
            .collect();
        self.log(file, at, What::WipeOff { faces });
    }
}
