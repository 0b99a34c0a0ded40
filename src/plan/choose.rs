//! Which containers to hand out: exact for one kitchen, good and bounded for several.
//!
//! All amounts are whole tenths of a gram, so that sums are exact. The cost of a choice is
//! compared in this order: mass of new containers, fuel left over, mass handed out.

/// A container as a choice sees it, in tenths of a gram.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Item {
    /// Fuel in it that this kitchen can burn.
    pub(crate) usable: i64,
    /// Fuel in it that would come home although it could burn elsewhere.
    pub(crate) waste: i64,
    /// All of it on the scale.
    pub(crate) gross: i64,
    /// Whether some of it was burnt before.
    pub(crate) part_used: bool,
}

/// What one kitchen wants (for one leg).
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Want {
    /// Fuel to burn; above 0.
    pub(crate) need: i64,
    /// The containers in the store room as this kitchen sees them; none where one does not fit.
    pub(crate) stock: Vec<Option<Item>>,
    /// New ones that can be had, any number of each.
    pub(crate) sizes: Vec<Item>,
    /// Part-used ones that it is given at most.
    pub(crate) most: usize,
}

/// What a choice costs: new mass, then left over, then mass.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Cost {
    /// Mass of new containers, full.
    pub(crate) bought: i64,
    /// Fuel that comes home.
    pub(crate) left_over: i64,
    /// Mass of all that is handed out.
    pub(crate) gross: i64,
}

impl std::ops::Add for Cost {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            bought: self.bought + other.bought,
            left_over: self.left_over + other.left_over,
            gross: self.gross + other.gross,
        }
    }
}

/// Who gets what.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Choice {
    /// For each container in the store room, which want it goes to.
    pub(crate) owner: Vec<Option<usize>>,
    /// For each want, how many of each new size.
    pub(crate) new: Vec<Vec<u32>>,
    /// What it costs in all.
    pub(crate) cost: Cost,
    /// No choice costs less than this; nothing where there is too much to try.
    pub(crate) bound: Cost,
}

/// Needs are mixed exactly up to this (20 kg); beyond it, containers of the size that carries fuel
/// most lightly come first.
const EXACT: i64 = 200_000;

/// The most entries of one exact table: about 50 MB.
const TABLE: usize = 50_000_000;

/// The lightest mixes of new containers for every need up to a largest one.
pub(super) struct Mixes {
    /// For each need, counted in units: mass and fuel left over of its mix, and the size that it
    /// ends with.
    best: Vec<Option<(i64, i64, usize)>>,
    /// What all sizes hold a whole number of: between its multiples the mixes are the same.
    unit: i64,
    sizes: Vec<Item>,
    /// The size with the least mass for its usable fuel.
    lightest: Option<usize>,
}

impl Mixes {
    /// Works them out by dynamic programming over the need: the lightest mix for a need is one
    /// container more than the lightest mix for the rest.
    pub(super) fn new(sizes: &[Item], most: i64) -> Self {
        let usable = |index: &usize| sizes[*index].usable > 0;
        let lightest = (0..sizes.len()).filter(usable).min_by(|a, b| {
            let (a, b) = (&sizes[*a], &sizes[*b]);
            (i128::from(a.gross) * i128::from(b.usable))
                .cmp(&(i128::from(b.gross) * i128::from(a.usable)))
        });
        let unit = sizes
            .iter()
            .filter(|size| size.usable > 0)
            .fold(0, |unit, size| common(unit, size.usable))
            .max(1);
        let units = (most.clamp(0, EXACT) + unit - 1) / unit;
        let mut best: Vec<Option<(i64, i64, usize)>> = vec![Some((0, 0, usize::MAX))];
        best.reserve(units as usize);
        for need in (1..=units).map(|count| count * unit) {
            let mut here: Option<(i64, i64, usize)> = None;
            for (index, size) in sizes.iter().enumerate().filter(|(_, size)| size.usable > 0) {
                let rest = need - size.usable;
                let (mass, left) = if rest <= 0 {
                    (0, -rest)
                } else {
                    match best[(rest / unit) as usize] {
                        Some((mass, left, _)) => (mass, left),
                        None => continue,
                    }
                };
                let one = (mass + size.gross, left + size.waste, index);
                if here.is_none_or(|so_far| (one.0, one.1) < (so_far.0, so_far.1)) {
                    here = Some(one);
                }
            }
            best.push(here);
        }
        Self {
            best,
            unit,
            sizes: sizes.to_vec(),
            lightest,
        }
    }

    /// For a need beyond the table: how many of the lightest size come first, which one it is, and
    /// what is left to mix.
    fn first(&self, need: i64) -> (i64, usize, i64) {
        let need = need.max(0);
        match self.lightest {
            Some(size) if need > EXACT => {
                let usable = self.sizes[size].usable;
                let count = (need - EXACT + usable - 1) / usable;
                (count, size, (need - count * usable).max(0))
            }
            _ => (0, 0, need.min(EXACT)),
        }
    }

    /// How many units a need takes, the last one begun counted whole.
    fn units(&self, need: i64) -> i64 {
        (need + self.unit - 1) / self.unit
    }

    pub(super) fn cost(&self, need: i64) -> Option<Cost> {
        let (count, size, rest) = self.first(need);
        let units = self.units(rest);
        let (mass, left, _) = self.best[units as usize]?;
        // the mix is for a whole number of units
        let left = left + units * self.unit - rest;
        let (gross, waste) = match count {
            0 => (0, 0),
            _ => (
                self.sizes[size].gross * count,
                self.sizes[size].waste * count,
            ),
        };
        Some(Cost {
            bought: mass + gross,
            left_over: left + waste,
            gross: mass + gross,
        })
    }

    pub(super) fn counts(&self, need: i64) -> Vec<u32> {
        let mut counts = vec![0; self.sizes.len()];
        let (count, size, mut need) = self.first(need);
        if count > 0 {
            counts[size] = u32::try_from(count).unwrap_or(u32::MAX);
        }
        while need > 0
            && let Some((_, _, size)) = self.best[self.units(need) as usize]
        {
            counts[size] += 1;
            need -= self.sizes[size].usable;
        }
        counts
    }
}

/// The greatest common divisor.
fn common(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { common(b, a % b) }
}

/// The lightest exact mix of new containers for a need; none if no container helps.
pub(crate) fn lightest_mix(sizes: &[Item], need: i64) -> Option<Vec<u32>> {
    let mixes = Mixes::new(sizes, need.max(0));
    mixes.cost(need)?;
    Some(mixes.counts(need))
}

/// The mass of the lightest mix for each of some needs; none where no container helps. Worked in
/// whole grams, needs rounded up and contents down: many large needs are asked for at once.
pub(crate) fn lightest_masses(sizes: &[Item], needs: &[i64]) -> Vec<Option<i64>> {
    const TENTHS: i64 = 10;
    let coarse: Vec<Item> = sizes
        .iter()
        .map(|size| Item {
            usable: size.usable / TENTHS,
            ..*size
        })
        .collect();
    let needs: Vec<i64> = needs
        .iter()
        .map(|need| (need.max(&0) + TENTHS - 1) / TENTHS)
        .collect();
    let most = needs.iter().copied().max().unwrap_or(0);
    let mixes = Mixes::new(&coarse, most);
    needs
        .into_iter()
        .map(|need| mixes.cost(need).map(|cost| cost.bought))
        .collect()
}

/// What has been put together for one want.
#[derive(Clone, Copy, Debug, Default)]
struct Sum {
    usable: i64,
    waste: i64,
    gross: i64,
    part_used: i64,
}

impl Sum {
    fn with(self, item: &Item, sign: i64) -> Self {
        Self {
            usable: self.usable + sign * item.usable,
            waste: self.waste + sign * item.waste,
            gross: self.gross + sign * item.gross,
            part_used: self.part_used + sign * i64::from(item.part_used),
        }
    }

    /// Whether a want may have it.
    fn fits(self, want: &Want) -> bool {
        usize::try_from(self.part_used).is_ok_and(|count| count <= want.most)
    }
}

/// The cost of one want with a sum from the store room, topped up by the lightest mix.
fn cost_of(want: &Want, mixes: &Mixes, sum: Sum) -> Option<Cost> {
    let missing = (want.need - sum.usable).max(0);
    let over = (sum.usable - want.need).max(0);
    let from_stock = Cost {
        bought: 0,
        left_over: over + sum.waste,
        gross: sum.gross,
    };
    Some(from_stock + mixes.cost(missing)?)
}

/// How many part-used containers a table tells apart: one layer where there is no limit to them.
fn layers<'a>(want: &Want, items: impl Iterator<Item = &'a Item>) -> usize {
    let part_used = items.filter(|item| item.part_used).count();
    if want.most < part_used {
        want.most + 1
    } else {
        1
    }
}

/// The best subset of a pool for one want, exactly: a 0/1 knapsack over the sum of usable fuel (and
/// over the number of part-used ones where that has a limit), keeping for each sum the least waste,
/// then the least mass.
fn best_subset(want: &Want, mixes: &Mixes, pool: &[usize]) -> Option<(Cost, Vec<usize>)> {
    let items: Vec<(usize, Item)> = pool
        .iter()
        .filter_map(|index| want.stock[*index].map(|item| (*index, item)))
        .filter(|(_, item)| item.usable > 0)
        .filter(|(_, item)| want.most > 0 || !item.part_used)
        .collect();
    let largest = items.iter().map(|(_, item)| item.usable).max().unwrap_or(0);
    let all: i64 = items.iter().map(|(_, item)| item.usable).sum();
    let layers = layers(want, items.iter().map(|(_, item)| item));
    if (want.need + largest).min(all) as usize * items.len().max(1) * layers > TABLE {
        return largest_first(want, mixes, &items);
    }
    // More than one container beyond the need is never better: one could be left at home.
    let wide = (want.need + largest).min(all) as usize + 1;
    let mut best: Vec<Option<(i64, i64)>> = vec![None; wide * layers];
    best[0] = Some((0, 0));
    let mut taken = vec![false; items.len() * wide * layers];
    // how many layers down a container leads
    let down = |item: &Item| usize::from(layers > 1 && item.part_used);
    for (row, (_, item)) in items.iter().enumerate() {
        let (step, down) = (item.usable as usize, down(item));
        for layer in (down..layers).rev() {
            for sum in (step..wide).rev() {
                let Some((waste, gross)) = best[(layer - down) * wide + sum - step] else {
                    continue;
                };
                let with = (waste + item.waste, gross + item.gross);
                let here = layer * wide + sum;
                if best[here].is_none_or(|so_far| with < so_far) {
                    best[here] = Some(with);
                    taken[row * wide * layers + here] = true;
                }
            }
        }
    }
    let (cost, mut here) = best
        .iter()
        .enumerate()
        .filter_map(|(here, found)| {
            let (waste, gross) = (*found)?;
            let sum = Sum {
                usable: (here % wide) as i64,
                waste,
                gross,
                part_used: 0,
            };
            Some((cost_of(want, mixes, sum)?, here))
        })
        .min()?;
    let mut chosen = Vec::new();
    for (row, (index, item)) in items.iter().enumerate().rev() {
        if taken[row * wide * layers + here] {
            chosen.push(*index);
            here -= item.usable as usize + down(item) * wide;
        }
    }
    chosen.sort_unstable();
    Some((cost, chosen))
}

/// For a store room too large to try every sum: the fullest first, while they are needed.
fn largest_first(
    want: &Want,
    mixes: &Mixes,
    items: &[(usize, Item)],
) -> Option<(Cost, Vec<usize>)> {
    let mut items = items.to_vec();
    items.sort_by_key(|(index, item)| (std::cmp::Reverse(item.usable), *index));
    let mut sum = Sum::default();
    let mut chosen = Vec::new();
    for (index, item) in &items {
        if sum.usable < want.need && sum.with(item, 1).fits(want) {
            sum = sum.with(item, 1);
            chosen.push(*index);
        }
    }
    chosen.sort_unstable();
    Some((cost_of(want, mixes, sum)?, chosen))
}

/// Whether the sums of a want over the store room are few enough to try them all.
fn is_exact(want: &Want) -> bool {
    let usable = || want.stock.iter().flatten().map(|item| item.usable);
    let cap = (want.need + usable().max().unwrap_or(0)).min(usable().sum());
    let layers = layers(want, want.stock.iter().flatten());
    want.need <= EXACT && cap as usize * want.stock.len().max(1) * layers <= TABLE
}

/// A choice being improved.
struct Search<'a> {
    wants: &'a [Want],
    mixes: &'a [Mixes],
    owner: Vec<Option<usize>>,
    sums: Vec<Sum>,
    costs: Vec<Cost>,
}

impl<'a> Search<'a> {
    /// One want after the other takes its best from what is left.
    fn one_by_one(wants: &'a [Want], mixes: &'a [Mixes], order: &[usize]) -> Option<Self> {
        let count = wants.first().map_or(0, |want| want.stock.len());
        let mut search = Self {
            wants,
            mixes,
            owner: vec![None; count],
            sums: vec![Sum::default(); wants.len()],
            costs: vec![Cost::default(); wants.len()],
        };
        for want in order {
            search.choose_again(*want)?;
        }
        Some(search)
    }

    fn total(&self) -> Cost {
        self.costs
            .iter()
            .fold(Cost::default(), |sum, one| sum + *one)
    }

    /// Gives one want the best of what it has and what nobody has.
    fn choose_again(&mut self, want: usize) -> Option<()> {
        let pool: Vec<usize> = (0..self.owner.len())
            .filter(|index| self.owner[*index].is_none_or(|owner| owner == want))
            .collect();
        let (cost, chosen) = best_subset(&self.wants[want], &self.mixes[want], &pool)?;
        for index in pool {
            self.owner[index] = None;
        }
        self.sums[want] = Sum::default();
        for index in chosen {
            self.owner[index] = Some(want);
            if let Some(item) = &self.wants[want].stock[index] {
                self.sums[want] = self.sums[want].with(item, 1);
            }
        }
        self.costs[want] = cost;
        Some(())
    }

    /// The cost of a want after giving one container away and taking another.
    fn changed(
        &self,
        want: usize,
        gives: Option<usize>,
        takes: Option<usize>,
    ) -> Option<(Sum, Cost)> {
        let mut sum = self.sums[want];
        if let Some(index) = gives {
            sum = sum.with(self.wants[want].stock[index].as_ref()?, -1);
        }
        if let Some(index) = takes {
            sum = sum.with(self.wants[want].stock[index].as_ref()?, 1);
        }
        let of = &self.wants[want];
        let cost = sum
            .fits(of)
            .then(|| cost_of(of, &self.mixes[want], sum))??;
        Some((sum, cost))
    }

    /// Swaps two containers, or moves one, if that costs less.
    fn swap(&mut self, a: usize, b: Option<usize>, to: Option<usize>) -> bool {
        let from = self.owner[a];
        if from == to {
            return false;
        }
        let before = |want: Option<usize>| want.map_or(Cost::default(), |want| self.costs[want]);
        let old = before(from) + before(to);
        let left = match from {
            Some(want) => match self.changed(want, Some(a), b) {
                Some(after) => Some((want, after)),
                None => return false,
            },
            None => None,
        };
        let right = match to {
            Some(want) => match self.changed(want, b, Some(a)) {
                Some(after) => Some((want, after)),
                None => return false,
            },
            None => None,
        };
        let new = [&left, &right]
            .into_iter()
            .flatten()
            .fold(Cost::default(), |sum, (_, (_, cost))| sum + *cost);
        if new >= old {
            return false;
        }
        for (want, (sum, cost)) in [left, right].into_iter().flatten() {
            self.sums[want] = sum;
            self.costs[want] = cost;
        }
        self.owner[a] = to;
        if let Some(b) = b {
            self.owner[b] = from;
        }
        true
    }

    /// Moves and swaps until nothing gets better.
    fn improve(&mut self) {
        const ROUNDS: usize = 40;
        for _ in 0..ROUNDS {
            let before = self.total();
            for a in 0..self.owner.len() {
                for want in 0..self.wants.len() {
                    self.swap(a, None, Some(want));
                }
                self.swap(a, None, None);
                for b in a + 1..self.owner.len() {
                    self.swap(a, Some(b), self.owner[b]);
                }
            }
            if self.total() < before {
                continue;
            }
            for want in 0..self.wants.len() {
                let kept = (self.owner.clone(), self.sums.clone(), self.costs.clone());
                if self.choose_again(want).is_none() || self.total() > before {
                    (self.owner, self.sums, self.costs) = kept;
                }
            }
            if self.total() >= before {
                return;
            }
        }
    }
}

/// All wants as one: whatever is good for all apart is possible for it too, so its best is a
/// bound.
fn pooled(wants: &[Want]) -> Want {
    let kinder = |a: Option<Item>, b: Option<Item>| match (a, b) {
        (Some(a), Some(b)) => Some(Item {
            usable: a.usable.max(b.usable),
            waste: a.waste.min(b.waste),
            gross: a.gross.min(b.gross),
            part_used: a.part_used && b.part_used,
        }),
        (one, None) | (None, one) => one,
    };
    let mut wants = wants.iter();
    let Some(mut all) = wants.next().cloned() else {
        return Want {
            need: 0,
            stock: Vec::new(),
            sizes: Vec::new(),
            most: 0,
        };
    };
    for want in wants {
        all.need += want.need;
        all.most = all.most.saturating_add(want.most);
        for (mine, other) in all.stock.iter_mut().zip(&want.stock) {
            *mine = kinder(*mine, *other);
        }
        for (index, other) in want.sizes.iter().enumerate() {
            match all.sizes.get_mut(index) {
                Some(mine) => *mine = kinder(Some(*mine), Some(*other)).unwrap_or(*mine),
                None => all.sizes.push(*other),
            }
        }
    }
    all
}

/// Hands the store room out and tops it up with new ones: exact for one want; for several the
/// best of some orders, improved by moves and swaps. None if a want cannot be met.
pub(crate) fn choose(wants: &[Want]) -> Option<Choice> {
    let mixes: Vec<Mixes> = wants
        .iter()
        .map(|want| Mixes::new(&want.sizes, want.need))
        .collect();
    let given: Vec<usize> = (0..wants.len()).collect();
    let mut largest = given.clone();
    largest.sort_by_key(|want| std::cmp::Reverse(wants[*want].need));
    let smallest: Vec<usize> = largest.iter().rev().copied().collect();
    let mut found: Option<Search<'_>> = None;
    for order in [given, largest, smallest] {
        let mut search = Search::one_by_one(wants, &mixes, &order)?;
        if wants.len() > 1 {
            search.improve();
        }
        if found
            .as_ref()
            .is_none_or(|best| search.total() < best.total())
        {
            found = Some(search);
        }
        if wants.len() == 1 {
            break;
        }
    }
    let search = found?;
    let all = pooled(wants);
    let bound = if !is_exact(&all) {
        Cost::default()
    } else if wants.len() == 1 {
        search.total()
    } else {
        let pool: Vec<usize> = (0..all.stock.len()).collect();
        best_subset(&all, &Mixes::new(&all.sizes, all.need), &pool)?.0
    };
    let new = wants
        .iter()
        .zip(&mixes)
        .zip(&search.sums)
        .map(|((want, mixes), sum)| mixes.counts(want.need - sum.usable))
        .collect();
    Some(Choice {
        cost: search.total(),
        owner: search.owner,
        new,
        bound,
    })
}

#[cfg(test)]
mod tests;
