//! The drawing of one piece: to scale, its findings marked, the picked one told below.

use super::super::forms::FormKind;
use super::super::kit::draw::{cells, put};
use super::super::kit::key::Key;
use super::super::kit::text::wrap;
use super::super::screen::{Ctx, Screen, Wish};
use super::drawing_keys::{Do, KEYS};
use super::drawing_words::{Foot, figures, nothing_found};
use crate::desk::Action;
use crate::papers::{
    CutOf, cut_list_paper, cut_plan, cutting_paper, finding_mark, finding_source, finding_words,
    findings_paper, named_files, picture, sheet_svg, template_files,
};
use crate::shape::drawing::{Extra, Ink, Plot, Signs, TemplateOf, View};
use crate::shape::layout::{Finding, Weight};
use crate::shape::lumber::Lay;
use crate::shop::{PieceFile, PieceId};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;

/// What is being picked below the drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum For {
    Cutting,
    Template,
}

/// An opened drawing.
#[derive(Debug)]
pub struct DrawingScreen {
    piece: PieceId,
    view: View,
    signs: Option<Signs>,
    finding: usize,
    picking: Option<(For, usize)>,
    from_below: bool,
}

impl DrawingScreen {
    /// Opens the drawing of a piece.
    pub fn new(piece: PieceId) -> Self {
        Self {
            piece,
            view: View::default(),
            signs: None,
            finding: 0,
            picking: None,
            from_below: false,
        }
    }

    fn signs(&self, ctx: &Ctx<'_>) -> Signs {
        let first = if ctx.theme.ascii {
            Signs::Ascii
        } else {
            Signs::Braille
        };
        self.signs.unwrap_or(first)
    }

    fn accept(&self, found: &[Finding]) -> Vec<Wish> {
        let Some(finding) = found.get(self.finding) else {
            return vec![tell("There is no finding to accept.")];
        };
        vec![Wish::Form(FormKind::Accept {
            piece: self.piece,
            rule: finding.rule,
            about: finding.about.clone(),
        })]
    }

    fn reopen(&self, found: &[Finding]) -> Vec<Wish> {
        match found.get(self.finding) {
            Some(finding) if finding.accepted.is_some() => {
                vec![Wish::Act(Action::WithdrawAccepted {
                    piece: self.piece,
                    rule: finding.rule,
                    about: finding.about.clone(),
                })]
            }
            _ => vec![tell(
                "This finding was not accepted, so it is open already.",
            )],
        }
    }

    fn pick_key(&mut self, key: &Key, file: &PieceFile, ctx: &Ctx<'_>) -> Vec<Wish> {
        let Some((what, at)) = self.picking else {
            return Vec::new();
        };
        let cuts = CutOf::all(file);
        match key {
            Key::Up => self.picking = Some((what, at.saturating_sub(1))),
            Key::Down => self.picking = Some((what, (at + 1).min(cuts.len().saturating_sub(1)))),
            Key::Char('x') if what == For::Template => self.from_below = !self.from_below,
            Key::Enter | Key::Char(' ') => {
                self.picking = None;
                if let Some(of) = cuts.get(at) {
                    return match what {
                        For::Cutting => vec![cutting(file, *of, ctx)],
                        For::Template => vec![self.template(file, *of, ctx)],
                    };
                }
            }
            _ => self.picking = None,
        }
        Vec::new()
    }

    fn template(&self, file: &PieceFile, of: CutOf, ctx: &Ctx<'_>) -> Wish {
        let shop = ctx.shop;
        let of_what = match of {
            CutOf::Outline => TemplateOf::Piece,
            CutOf::Opening(name) => TemplateOf::Opening(name),
        };
        // The line to cut the router's template to, where this router can cut it at all.
        let guide_offset = cut_plan(file, of, &shop.layout.router)
            .ok()
            .map(|plan| plan.offset);
        let extra = Extra {
            guide_offset,
            from_below: self.from_below,
        };
        let page = shop.layout.page;
        match template_files(shop, file, of_what, extra, page) {
            Some(made) => Wish::Papers {
                stem: format!("{}-{}-template", shop.ticket_no(file), of.code()),
                files: named_files(&made, page),
            },
            None => tell("There is nothing of that name to draw."),
        }
    }

    /// The lines below the drawing.
    fn foot(&self, file: &PieceFile, found: &[Finding], width: usize, ctx: &Ctx<'_>) -> Foot {
        let theme = ctx.theme;
        if let Some((what, at)) = self.picking {
            let head = match what {
                For::Cutting => "Plan which cut? up down, enter; esc leaves".to_owned(),
                For::Template => format!(
                    "Full-size template of what? up down, enter; x: {}; esc leaves",
                    if self.from_below {
                        "from below"
                    } else {
                        "from above"
                    }
                ),
            };
            let mut out = vec![(head, theme.title)];
            for (no, of) in CutOf::all(file).iter().enumerate() {
                let (mark, style) = if no == at {
                    (">", theme.selected)
                } else {
                    (" ", theme.text)
                };
                out.push((format!("{mark} {}", of.words()), style));
            }
            return out;
        }
        let Some(finding) = found.get(self.finding) else {
            return nothing_found(file, width, ctx);
        };
        let no = self.finding + 1;
        let head = format!("finding {no} of {}", found.len());
        let style = match finding.weight {
            _ if finding.accepted.is_some() => theme.text,
            Weight::Note => theme.text,
            Weight::Warning | Weight::Serious => theme.warn,
        };
        let words = format!(
            "{} {}",
            finding_mark(no, finding),
            finding_words(finding, &ctx.shop.settings)
        );
        let mut out = vec![(head, theme.dim)];
        out.extend(wrap(&words, width).into_iter().map(|line| (line, style)));
        let under = match &finding.accepted {
            Some(reason) => format!("accepted: {reason}"),
            None => finding_source(finding),
        };
        out.extend(
            wrap(&under, width)
                .into_iter()
                .map(|line| (line, theme.dim)),
        );
        out
    }
}

fn tell(words: &str) -> Wish {
    Wish::Tell(vec![words.to_owned()])
}

fn cutting(file: &PieceFile, of: CutOf, ctx: &Ctx<'_>) -> Wish {
    match cutting_paper(ctx.shop, file, of, &ctx.shop.layout.router) {
        Ok(lines) => Wish::Read {
            title: format!("Cutting {} of {}", of.words(), ctx.shop.called(file)),
            lines,
        },
        Err(error) => tell(&error.to_string()),
    }
}

fn cut_list(file: &PieceFile, ctx: &Ctx<'_>) -> Wish {
    match cut_list_paper(ctx.shop, &[file], Lay::Length, &ctx.shop.layout.lumber) {
        Ok(lines) => Wish::Read {
            title: format!("Cut list of {}", ctx.shop.called(file)),
            lines,
        },
        Err(error) => tell(&error.to_string()),
    }
}

impl Screen for DrawingScreen {
    fn title(&self, ctx: &Ctx<'_>) -> String {
        ctx.shop.file(self.piece).map_or_else(
            || "Drawing".to_owned(),
            |file| format!("Drawing {}", ctx.shop.called(file)),
        )
    }

    fn key(&mut self, key: &Key, ctx: &Ctx<'_>) -> Vec<Wish> {
        let Some(file) = ctx.shop.file(self.piece) else {
            return vec![Wish::Back];
        };
        if self.picking.is_some() {
            return self.pick_key(key, file, ctx);
        }
        let Some(action) = KEYS.find(key) else {
            return Vec::new();
        };
        let found = ctx.shop.findings(file);
        match action {
            Do::Next if !found.is_empty() => self.finding = (self.finding + 1) % found.len(),
            Do::Before if !found.is_empty() => {
                self.finding = (self.finding + found.len() - 1) % found.len();
            }
            Do::Next | Do::Before => {}
            Do::Accept => return self.accept(&found),
            Do::Reopen => return self.reopen(&found),
            Do::Nearer => self.view = self.view.zoomed(true),
            Do::Further => self.view = self.view.zoomed(false),
            Do::Whole => self.view = View::default(),
            Do::Up => self.view = self.view.moved(0.0, 0.25),
            Do::Down => self.view = self.view.moved(0.0, -0.25),
            Do::Left => self.view = self.view.moved(-0.25, 0.0),
            Do::Right => self.view = self.view.moved(0.25, 0.0),
            Do::Signs => self.signs = Some(self.signs(ctx).next()),
            Do::Stands => return vec![Wish::Form(FormKind::Stands { piece: self.piece })],
            Do::Findings => {
                return vec![Wish::Read {
                    title: format!("Findings on {}", ctx.shop.called(file)),
                    lines: findings_paper(ctx.shop, file),
                }];
            }
            Do::Figures => return vec![figures(file, ctx)],
            Do::Cutting => self.picking = Some((For::Cutting, 0)),
            Do::Template => self.picking = Some((For::Template, 0)),
            Do::CutList => return vec![cut_list(file, ctx)],
            Do::Sheet => {
                let ticket = ctx.shop.ticket_no(file);
                let svg = sheet_svg(ctx.shop, file, ctx.shop.layout.page);
                return vec![Wish::Papers {
                    stem: format!("{ticket}-sheet"),
                    files: vec![(format!("{ticket}-sheet.svg"), svg)],
                }];
            }
            Do::Checks => return vec![Wish::Form(FormKind::Checks)],
            Do::Router => return vec![Wish::Form(FormKind::Router)],
            Do::Boards => return vec![Wish::Form(FormKind::Boards)],
            Do::Back => return vec![Wish::Back],
        }
        Vec::new()
    }

    fn settle(&mut self, ctx: &Ctx<'_>) {
        if let Some(file) = ctx.shop.file(self.piece) {
            let last = ctx.shop.findings(file).len().saturating_sub(1);
            self.finding = self.finding.min(last);
        }
    }

    fn draw(&self, buf: &mut Buffer, area: Rect, ctx: &Ctx<'_>) {
        let Some(file) = ctx.shop.file(self.piece) else {
            let gone = "This piece is no longer there. Press esc.";
            put(buf, area, 0, 0, gone, ctx.theme.text);
            return;
        };
        let (width, height) = (usize::from(area.width), usize::from(area.height));
        let found = ctx.shop.findings(file);
        let mut foot = self.foot(file, &found, width, ctx);
        // The drawing keeps half of the height.
        foot.truncate((height / 2).max(1));
        let rows = height.saturating_sub(foot.len() + 1);
        let plot = Plot::new(
            &picture(ctx.shop, file),
            self.view,
            width,
            rows,
            self.signs(ctx),
        );
        for row in 0..rows {
            for (col, cell) in plot.row(row).iter().enumerate() {
                if !cell.sign.is_empty() && cell.sign != " " {
                    put(buf, area, col, row, &cell.sign, style(cell.ink, ctx));
                }
            }
        }
        let scale = format!(
            "front below, back above; one sign is {:.0} mm wide, zoom {:.1}, {}",
            plot.mm_per_col(),
            self.view.zoom,
            self.signs(ctx).word()
        );
        put(buf, area, 0, rows, &scale, ctx.theme.dim);
        let place = Rect {
            y: area.y + cells(rows + 1),
            height: area.height.saturating_sub(cells(rows + 1)),
            ..area
        };
        for (row, (line, look)) in foot.iter().enumerate() {
            put(buf, place, 0, row, line, *look);
        }
    }

    fn hints(&self, width: usize, ctx: &Ctx<'_>) -> String {
        if self.picking.is_some() {
            return "up down pick  enter do it  esc back".to_owned();
        }
        let file = ctx.shop.file(self.piece);
        let any = file.is_some_and(|file| !ctx.shop.findings(file).is_empty());
        KEYS.hint_line(width, |action| {
            any || !matches!(action, Do::Next | Do::Accept)
        })
    }

    fn help(&self, width: usize) -> Vec<String> {
        KEYS.help_lines(width)
    }
}

fn style(ink: Option<Ink>, ctx: &Ctx<'_>) -> Style {
    match ink {
        Some(Ink::Finding) => ctx.theme.warn,
        Some(Ink::Outline | Ink::Opening | Ink::Size | Ink::Whole) => ctx.theme.text,
        Some(Ink::Grain) => ctx.theme.accent,
        _ => ctx.theme.dim,
    }
}
