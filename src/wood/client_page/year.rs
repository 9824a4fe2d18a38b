//! What the top will do through the year.

use super::{ClientPage, ClientPageInput, Topic};
use crate::wood::movement::{Axis, MovementError, YearMovement, both};

impl ClientPage {
    pub(super) fn tell_year(&mut self, input: &ClientPageInput<'_>) -> Result<(), MovementError> {
        let joined = !input.legs.is_empty();
        let wide = input.legs.iter().fold(both(input.width), |words, leg| {
            format!("{words}, its {} {}", leg.name, both(leg.width))
        });
        let whose = if joined { "'s run" } else { "" };
        let text = format!(
            "At {} the {}{whose} is {wide} wide; in your rooms the wood will go from {} to {} and \
             back through the year.",
            input.today.show(),
            input.piece,
            input.band.driest().show(),
            input.band.wettest().show()
        );
        self.say(Topic::Year, text);
        if joined {
            let text = "It is joined from parts whose boards run along each of them, so each part \
                        moves across its own width."
                .to_owned();
            self.say(Topic::Year, text);
        }
        let seasons = |year: &YearMovement| {
            format!(
                "{} in the dry season and {} in the damp one.",
                year.to_dry.show(),
                year.to_wet.show()
            )
        };
        let (width, length) = if joined {
            ("In width its run", "In length its run")
        } else {
            ("In width it", "In length it")
        };
        self.say(Topic::Year, format!("{width} {}", seasons(&self.across)));
        for leg in input.legs {
            let year = input
                .build
                .year(Axis::Width, leg.width, input.today, &input.band)?;
            let text = format!("In width its {} {}", leg.name, seasons(&year));
            self.say(Topic::Year, text);
        }
        self.say(Topic::Year, format!("{length} {}", seasons(&self.along)));
        Ok(())
    }
}
