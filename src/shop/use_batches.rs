//! Sharing batches of stain out to jobs: each job from one batch, as much as can be from the shelf.
//!
//! Whatever no batch on the shelf can give is bought as one new batch, whose price never falls
//! with its size; so the least volume left to buy is the cheapest plan. Found by trying, with a
//! bound; the number of steps is held, so that even an odd shelf is answered at once.

/// What one job asks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Asks {
    /// Microlitres, with the reserve.
    pub needs: i64,
    /// Microlitres without it.
    pub at_least: i64,
    /// The batch it was begun with, by its place, if that is still on the shelf.
    pub begun: Option<usize>,
}

/// Who takes from where.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Shared {
    /// For each job the batch by its place, or none for the new one.
    pub from: Vec<Option<usize>>,
    /// Whether no better sharing can be.
    pub sure: bool,
}

/// Steps of the search: far more than a dozen jobs over a dozen batches take.
const STEPS: u32 = 400_000;

/// Shares the batches out. A job under way keeps to its own batch where that does for the rest of
/// it, with the reserve or, failing that, without.
pub(super) fn share_out(asks: &[Asks], lefts: &[i64]) -> Shared {
    let mut left = lefts.to_vec();
    let mut from: Vec<Option<usize>> = vec![None; asks.len()];
    let mut order: Vec<usize> = (0..asks.len()).collect();
    order.sort_by_key(|job| std::cmp::Reverse(asks[*job].needs));
    let mut open = Vec::new();
    for job in order {
        let ask = asks[job];
        let kept = ask.begun.filter(|at| left[*at] >= ask.at_least);
        match kept {
            Some(at) => {
                left[at] -= ask.needs.min(left[at]);
                from[job] = Some(at);
            }
            None => open.push(job),
        }
    }
    let mut search = Search {
        needs: open.iter().map(|job| asks[*job].needs).collect(),
        left,
        now: vec![None; open.len()],
        best: (-1, vec![None; open.len()]),
        steps: STEPS,
    };
    let all = search.needs.iter().sum();
    search.go(0, 0, all);
    let sure = search.steps > 0;
    for (job, at) in open.into_iter().zip(search.best.1) {
        from[job] = at;
    }
    Shared { from, sure }
}

struct Search {
    needs: Vec<i64>,
    left: Vec<i64>,
    now: Vec<Option<usize>>,
    best: (i64, Vec<Option<usize>>),
    steps: u32,
}

impl Search {
    /// Tries every place for the `at`-th job, largest first; `given` comes from the shelf so far,
    /// `rest` is what the jobs from here on need.
    fn go(&mut self, at: usize, given: i64, rest: i64) {
        if self.steps == 0 || given + rest <= self.best.0 {
            return;
        }
        self.steps -= 1;
        let Some(need) = self.needs.get(at).copied() else {
            self.best = (given, self.now.clone());
            return;
        };
        let mut tried: Vec<i64> = Vec::new();
        for batch in 0..self.left.len() {
            let has = self.left[batch];
            // Two batches with as much left are one choice.
            if has < need || tried.contains(&has) {
                continue;
            }
            tried.push(has);
            self.left[batch] -= need;
            self.now[at] = Some(batch);
            self.go(at + 1, given + need, rest - need);
            self.left[batch] += need;
        }
        self.now[at] = None;
        self.go(at + 1, given, rest - need);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// The most that any sharing takes from the shelf, all tried.
    fn brute(needs: &[i64], left: &mut Vec<i64>) -> i64 {
        let Some((first, rest)) = needs.split_first() else {
            return 0;
        };
        let mut best = brute(rest, left);
        for at in 0..left.len() {
            if left[at] >= *first {
                left[at] -= first;
                best = best.max(first + brute(rest, left));
                left[at] += first;
            }
        }
        best
    }

    proptest! {
        #[test]
        fn no_sharing_leaves_less_to_buy(
            needs in prop::collection::vec(1i64..900, 0..6),
            lefts in prop::collection::vec(0i64..1_500, 0..4),
        ) {
            let asks: Vec<Asks> = needs
                .iter()
                .map(|n| Asks { needs: *n, at_least: *n, begun: None })
                .collect();
            let shared = share_out(&asks, &lefts);
            prop_assert!(shared.sure);
            let mut left = lefts.clone();
            let mut given = 0;
            for (need, at) in needs.iter().zip(&shared.from) {
                if let Some(at) = at {
                    left[*at] -= need;
                    given += need;
                }
            }
            prop_assert!(left.iter().all(|left| *left >= 0));
            prop_assert_eq!(given, brute(&needs, &mut lefts.clone()));
        }
    }

    #[test]
    fn a_job_under_way_keeps_its_batch() {
        let ask = |needs, at_least, begun| Asks {
            needs,
            at_least,
            begun,
        };
        // The larger job would fit batch 0 too, but the smaller one is under way there.
        let shared = share_out(&[ask(500, 450, None), ask(300, 270, Some(0))], &[600, 100]);
        assert_eq!(shared.from, [None, Some(0)]);
        // Its own batch does without the reserve.
        let shared = share_out(&[ask(330, 300, Some(0))], &[310]);
        assert_eq!(shared.from, [Some(0)]);
        // It does not: all of the rest from another.
        let shared = share_out(&[ask(330, 300, Some(0))], &[290, 400]);
        assert_eq!(shared.from, [Some(1)]);
    }
}
