//! Layout: how a piece will stand, findings taken as they are, the shop's own figures.

use super::books::{BooksError, Row, Scope};
use super::error::DeskError;
use super::people::line;
use super::perform::{Desk, Done};
use crate::shape::layout::{About, Accepted, Figure, Rule, RuleSetting, Standing};
use crate::shop::{LayoutBook, PieceFile, PieceId, PieceLayout};

impl Desk<'_> {
    pub(super) fn save_standing(
        &mut self,
        piece: PieceId,
        standing: &Standing,
    ) -> Result<Done, DeskError> {
        let (shop, file) = self.piece_file(piece)?;
        let (length, width) = file.piece.shape.outline().extent();
        standing.check(length, width)?;
        let mut layout = shop.layout_of(piece);
        standing.clone_into(&mut layout.standing);
        let open = self.keep(&file, &mut layout)?;
        let words = format!("Noted how {} will stand", shop.called(&file));
        Ok(Done::said(words).with_notes(open))
    }

    pub(super) fn accept(
        &mut self,
        piece: PieceId,
        rule: Rule,
        about: &About,
        reason: &str,
    ) -> Result<Done, DeskError> {
        let (shop, file) = self.piece_file(piece)?;
        let mut notes = Vec::new();
        let reason = line("The reason", reason, 200, &mut notes)?;
        if reason.is_empty() {
            return Err(DeskError::Empty {
                what: "The reason",
                cure: "type why it may stay as it is, for example the client asks it.",
            });
        }
        let mut layout = shop.layout_of(piece);
        let found = shop.findings(&file);
        let finding = found
            .iter()
            .find(|finding| finding.rule == rule && finding.about == *about)
            .ok_or_else(|| no_finding(rule, about))?;
        let taken = Accepted {
            rule,
            about: about.clone(),
            missing: finding.missing,
            weight: finding.weight,
            reason: reason.clone(),
        };
        layout
            .accepted
            .retain(|other| other.rule != rule || other.about != *about);
        layout.accepted.push(taken);
        self.keep(&file, &mut layout)?;
        let words = format!(
            "Accepted {} at {about} of {}: {reason}",
            rule.word(),
            shop.called(&file)
        );
        Ok(Done::said(words).with_notes(notes))
    }

    pub(super) fn withdraw_accepted(
        &mut self,
        piece: PieceId,
        rule: Rule,
        about: &About,
    ) -> Result<Done, DeskError> {
        let (shop, file) = self.piece_file(piece)?;
        let mut layout = shop.layout_of(piece);
        let before = layout.accepted.len();
        layout
            .accepted
            .retain(|other| other.rule != rule || other.about != *about);
        if layout.accepted.len() == before {
            let found = shop.findings(&file);
            let open = found
                .iter()
                .any(|finding| finding.rule == rule && finding.about == *about);
            return Err(if open {
                let finding = format!("{} at {about}", rule.word());
                DeskError::FindingOpen { finding }
            } else {
                no_finding(rule, about)
            });
        }
        self.keep(&file, &mut layout)?;
        Ok(Done::said(format!(
            "Opened {} at {about} of {} again",
            rule.word(),
            shop.called(&file)
        )))
    }

    /// Writes what is kept of a piece; the findings still open, in words.
    fn keep(
        &mut self,
        file: &PieceFile,
        layout: &mut PieceLayout,
    ) -> Result<Vec<String>, DeskError> {
        layout
            .accepted
            .sort_by(|a, b| (a.rule, &a.about).cmp(&(b.rule, &b.about)));
        self.books.put(Row::PieceLayout(layout))?;
        let book = self.books.layout_book()?.unwrap_or_default();
        let open = book
            .findings(file, layout, self.settings()?.length)
            .into_iter()
            .filter(|finding| finding.accepted.is_none())
            .count();
        Ok(match open {
            0 => Vec::new(),
            1 => vec!["One layout finding is open.".to_owned()],
            many => vec![format!("{many} layout findings are open.")],
        })
    }

    pub(super) fn save_layout_book(&mut self, book: &LayoutBook) -> Result<Done, DeskError> {
        let before = self.books.layout_book()?.unwrap_or_default();
        let mut changed = Vec::new();
        for rule in Rule::ALL {
            let (had, has) = (before.rules.setting(rule), book.rules.setting(rule));
            has.suits(rule)?;
            if had != has {
                changed.push(format!("{} {}", rule.word(), setting_words(&has)));
            }
        }
        // A plan through an inch of wood and a pass of the feed show whether the figures hold.
        check_router(book)?;
        if before.router != book.router {
            changed.push("the router".to_owned());
        }
        crate::shape::lumber::gross_board_feet(1.0, book.lumber.waste_percent)?;
        crate::shape::lumber::boards(&[], &book.lumber)?;
        if before.lumber != book.lumber {
            changed.push("strips and lumber".to_owned());
        }
        if before.page != book.page {
            changed.push(format!("paper {}", book.page.word()));
        }
        self.books.put(Row::LayoutBook(book))?;
        if changed.is_empty() {
            return Ok(Done::said("Saved the layout figures unchanged"));
        }
        Ok(Done::said(format!(
            "Changed layout figures: {}",
            changed.join(", ")
        )))
    }

    /// What is kept of pieces, read for a snapshot inside an action.
    pub(super) fn layout_book(&self) -> Result<LayoutBook, BooksError> {
        Ok(self.books.layout_book()?.unwrap_or_default())
    }

    /// Keeps the acceptances that still stand for something after a change of shape: those whose
    /// finding is gone are taken away, so that none comes back unseen.
    pub(super) fn tidy_accepted(&mut self, piece: PieceId) -> Result<(), DeskError> {
        let book = self.layout_book()?;
        let files = self.books.pieces(Scope::One(piece))?;
        let layouts = self.books.layouts(Scope::One(piece))?;
        let (Some(file), Some(layout)) = (files.first(), layouts.first()) else {
            return Ok(());
        };
        let found = book.findings(file, layout, self.settings()?.length);
        let mut kept = layout.clone();
        kept.accepted.retain(|taken| {
            found
                .iter()
                .any(|finding| finding.rule == taken.rule && finding.about == taken.about)
        });
        if kept != *layout {
            self.books.put(Row::PieceLayout(&kept))?;
        }
        Ok(())
    }
}

fn no_finding(rule: Rule, about: &About) -> DeskError {
    DeskError::NoSuch {
        what: "finding",
        name: format!("{} at {about}", rule.word()),
    }
}

fn check_router(book: &LayoutBook) -> Result<(), DeskError> {
    use crate::shape::cutting::{Feed, offset, passes};
    use crate::units::Length;
    let router = &book.router;
    let inch = Length::from_64ths(64);
    // Only the rule is looked at here: what is kept for the end depends on the top.
    let none = crate::shape::cutting::CleanUp::None;
    passes(inch, router.bit, router.depth, none)?;
    Feed::at(router.rpm, router.flutes, router.chip, inch, router.bit)?;
    offset(router.guide, router.bit)?;
    if router.cutting_length <= Length::ZERO {
        return Err(crate::shape::cutting::CutError::Depth(router.cutting_length).into());
    }
    Ok(())
}

fn setting_words(setting: &RuleSetting) -> String {
    if !setting.made {
        return "not checked".to_owned();
    }
    let figure = match setting.figure {
        Figure::Length(length) => format!(
            "{} ",
            length.show_exact(crate::units::LengthStyle::Sixteenths)
        ),
        Figure::Percent(percent) => format!("{percent} % "),
        Figure::None => String::new(),
    };
    format!("{figure}as {}", setting.weight.word())
}
