//! Liquefied gas: the pressure over it, pure and mixed.

use crate::units::{Fraction, Mass, Pressure, Temperature, Volume};

/// A gas of camp-stove canisters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Component {
    /// Propane, C3H8: the light part.
    Propane,
    /// Isobutane (2-methylpropane), C4H10.
    Isobutane,
    /// n-Butane, C4H10: the part that stays behind in the cold.
    Butane,
}

/// A Wagner vapour pressure correlation for one substance:
/// ln(p / pc) = (a x + b x^1.5 + c x^j + d x^k) / (T / Tc), x = 1 - T / Tc.
struct Wagner {
    critical_k: f64,
    critical_pa: f64,
    coldest_k: f64,
    coefficients: [f64; 4],
    /// (j, k): (2.5, 5) or the older (3, 6).
    older_powers: bool,
}

impl Component {
    /// All of them, lightest first.
    pub const ALL: [Self; 3] = [Self::Propane, Self::Isobutane, Self::Butane];

    /// Molar mass, g/mol (standard atomic weights).
    pub(super) const fn grams_a_mole(self) -> f64 {
        match self {
            Self::Propane => 44.0956,
            Self::Isobutane | Self::Butane => 58.1222,
        }
    }

    /// Carbon atoms in a molecule.
    const fn carbon_atoms(self) -> f64 {
        match self {
            Self::Propane => 3.0,
            Self::Isobutane | Self::Butane => 4.0,
        }
    }

    /// Density of the liquid at 15 C in its own vapour, kg/L.
    const fn kilograms_a_litre_at_15_c(self) -> f64 {
        match self {
            Self::Propane => 0.5075,
            Self::Isobutane => 0.563,
            Self::Butane => 0.5843,
        }
    }

    const fn wagner(self) -> Wagner {
        match self {
            Self::Propane => Wagner {
                critical_k: 369.85,
                critical_pa: 4.247e6,
                coldest_k: 85.47,
                coefficients: [-6.763_68, 1.554_81, -1.5872, -2.024],
                older_powers: false,
            },
            Self::Isobutane => Wagner {
                critical_k: 408.14,
                critical_pa: 3.658_01e6,
                coldest_k: 165.0,
                coefficients: [-6.955_79, 1.5009, -2.527_17, -1.497_76],
                older_powers: true,
            },
            Self::Butane => Wagner {
                critical_k: 425.25,
                critical_pa: 3.792e6,
                coldest_k: 134.86,
                coefficients: [-7.017_63, 1.6777, -1.9739, -2.172],
                older_powers: false,
            },
        }
    }
}

/// Vapour pressure (absolute) over a pure liquefied gas.
///
/// Formula: ln(p / pc) = (a x + b x^1.5 + c x^2.5 + d x^5) / (T / Tc) with x = 1 - T / Tc;
/// for isobutane the older form with x^3 and x^6 (T in K).
///
/// Valid: from -187.7 C (propane), -108.1 C (isobutane), -138.3 C (n-butane) to the critical
/// point; `None` outside it. Within 0.3 % of the reference equations of state at -40 to 40 C.
///
/// Source: propane and n-butane: Poling, Prausnitz, O'Connell, The Properties of Gases and
/// Liquids, 5th edition, 2001, appendix A; isobutane (not in that set): McGarry, Ind. Eng. Chem.
/// Process Des. Dev. 22 (1983) 313-322. Both as tabulated in the open library `chemicals` 1.5.2.
///
/// Example: n-butane at 0 C: 103.21 kPa, just over one atmosphere.
/// ```
/// use leeside::physics::vapour::{Component, saturation_pressure_wagner};
/// use leeside::units::Temperature;
/// let p = saturation_pressure_wagner(Component::Butane, Temperature::celsius(0.0)).unwrap();
/// assert!((p.in_kilopascals() - 103.2107).abs() < 0.0001);
/// ```
#[must_use]
pub fn saturation_pressure_wagner(component: Component, t: Temperature) -> Option<Pressure> {
    let Wagner {
        critical_k,
        critical_pa,
        coldest_k,
        coefficients,
        older_powers,
    } = component.wagner();
    if !(coldest_k..=critical_k).contains(&t.in_kelvin()) {
        return None;
    }
    let reduced = t.in_kelvin() / critical_k;
    let x = 1.0 - reduced;
    let half = x * x.sqrt();
    let (third, fourth) = if older_powers {
        (x * x * x, x * x * x * x * x * x)
    } else {
        (x * half, x * x * x * x * x)
    };
    let [a, b, c, d] = coefficients;
    let exponent = (a * x + b * half + c * third + d * fourth) / reduced;
    Some(Pressure::pascals(critical_pa * libm::exp(exponent)))
}

/// The liquid in a canister: how much there is of each gas.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Liquid {
    /// Propane.
    pub propane: Mass,
    /// Isobutane.
    pub isobutane: Mass,
    /// n-Butane.
    pub butane: Mass,
}

impl Liquid {
    /// A net mass of liquid of a composition by mass.
    ///
    /// Formula: m_i = net x share_i / sum of the shares.
    ///
    /// Valid: shares of 0 or more. Shares that all are 0 give an empty liquid.
    ///
    /// Source: definition of the mass fraction.
    ///
    /// Example: 230 g of 30 % propane, 70 % n-butane.
    /// ```
    /// use leeside::physics::vapour::Liquid;
    /// use leeside::units::{Fraction, Mass};
    /// let [p, i, n] = [30.0, 0.0, 70.0].map(Fraction::percent);
    /// let liquid = Liquid::of(Mass::grams(230.0), p, i, n);
    /// assert!((liquid.propane.in_grams() - 69.0).abs() < 1e-9);
    /// assert!((liquid.total().in_grams() - 230.0).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn of(net: Mass, propane: Fraction, isobutane: Fraction, butane: Fraction) -> Self {
        let sum = propane + isobutane + butane;
        let part = |share: Fraction| {
            if sum > Fraction::ZERO {
                net * (share / sum)
            } else {
                Mass::ZERO
            }
        };
        Self {
            propane: part(propane),
            isobutane: part(isobutane),
            butane: part(butane),
        }
    }

    /// The mass of one gas in it.
    ///
    /// Formula: m_i.
    ///
    /// Valid: always.
    ///
    /// Source: definition.
    ///
    /// Example: the propane of 100 g of a 25/25/50 blend.
    /// ```
    /// use leeside::physics::vapour::{Component, Liquid};
    /// use leeside::units::{Fraction, Mass};
    /// let [p, i, n] = [25.0, 25.0, 50.0].map(Fraction::percent);
    /// let liquid = Liquid::of(Mass::grams(100.0), p, i, n);
    /// assert_eq!(liquid.mass_of(Component::Propane), Mass::grams(25.0));
    /// ```
    #[must_use]
    pub const fn mass_of(&self, component: Component) -> Mass {
        match component {
            Component::Propane => self.propane,
            Component::Isobutane => self.isobutane,
            Component::Butane => self.butane,
        }
    }

    /// The net mass.
    ///
    /// Formula: sum of m_i.
    ///
    /// Valid: always.
    ///
    /// Source: conservation of mass.
    ///
    /// Example: 25 g and 75 g make 100 g.
    /// ```
    /// use leeside::physics::vapour::Liquid;
    /// use leeside::units::Mass;
    /// let [propane, isobutane, butane] = [25.0, 75.0, 0.0].map(Mass::grams);
    /// let liquid = Liquid { propane, isobutane, butane };
    /// assert!((liquid.total().in_grams() - 100.0).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn total(&self) -> Mass {
        self.propane + self.isobutane + self.butane
    }

    /// The share of one gas by mass.
    ///
    /// Formula: w_i = m_i / sum of m_j; 0 for an empty liquid.
    ///
    /// Valid: masses of 0 or more.
    ///
    /// Source: definition of the mass fraction.
    ///
    /// Example: 25 g of propane in 100 g are 25 %.
    /// ```
    /// use leeside::physics::vapour::{Component, Liquid};
    /// use leeside::units::Mass;
    /// let [propane, isobutane, butane] = [25.0, 75.0, 0.0].map(Mass::grams);
    /// let liquid = Liquid { propane, isobutane, butane };
    /// let share = liquid.mass_fraction(Component::Propane);
    /// assert!((share.in_percent() - 25.0).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn mass_fraction(&self, component: Component) -> Fraction {
        if self.total() > Mass::ZERO {
            Fraction::of_one(self.mass_of(component) / self.total())
        } else {
            Fraction::ZERO
        }
    }

    /// The share of one gas by molecules.
    ///
    /// Formula: x_i = (m_i / M_i) / sum of (m_j / M_j); 0 for an empty liquid.
    ///
    /// Valid: masses of 0 or more; M 44.0956 (propane) and 58.1222 g/mol (the butanes).
    ///
    /// Source: definition of the mole fraction; standard atomic weights (IUPAC).
    ///
    /// Example: 30 % propane by mass with n-butane is 36.1 % by molecules.
    /// ```
    /// use leeside::physics::vapour::{Component, Liquid};
    /// use leeside::units::Mass;
    /// let [propane, isobutane, butane] = [30.0, 0.0, 70.0].map(Mass::grams);
    /// let share = Liquid { propane, isobutane, butane }.mole_fraction(Component::Propane);
    /// assert!((share.in_percent() - 36.098).abs() < 0.001);
    /// ```
    #[must_use]
    pub fn mole_fraction(&self, component: Component) -> Fraction {
        let moles = |of: Component| self.mass_of(of).in_grams() / of.grams_a_mole();
        let all: f64 = Component::ALL.into_iter().map(moles).sum();
        if all > 0.0 {
            Fraction::of_one(moles(component) / all)
        } else {
            Fraction::ZERO
        }
    }

    /// The share of carbon by mass, for its carbon dioxide.
    ///
    /// Formula: sum of w_i n_i 12.011 / M_i, n_i carbon atoms in a molecule.
    ///
    /// Valid: masses of 0 or more; 0 for an empty liquid.
    ///
    /// Source: stoichiometry; standard atomic weights (IUPAC).
    ///
    /// Example: n-butane is 82.66 % carbon.
    /// ```
    /// use leeside::physics::vapour::Liquid;
    /// use leeside::units::Mass;
    /// let [propane, isobutane, butane] = [0.0, 0.0, 1.0].map(Mass::grams);
    /// let carbon = Liquid { propane, isobutane, butane }.carbon();
    /// assert!((carbon.in_percent() - 82.66).abs() < 0.01);
    /// ```
    #[must_use]
    pub fn carbon(&self) -> Fraction {
        const CARBON_GRAMS_A_MOLE: f64 = 12.011;
        Component::ALL
            .into_iter()
            .map(|component| {
                self.mass_fraction(component) * component.carbon_atoms() * CARBON_GRAMS_A_MOLE
                    / component.grams_a_mole()
            })
            .sum()
    }

    /// The room that the liquid takes in a canister at 15 C.
    ///
    /// Formula: sum of m_i / density_i (ideal mixing), densities 0.5075 (propane), 0.563
    /// (isobutane), 0.5843 kg/L (n-butane).
    ///
    /// Valid: near 15 C; the volume grows by about 2 % for each 10 K.
    ///
    /// Source: saturated liquid at 15 C by Lemmon and others (2009, propane), Buecker and Wagner
    /// (2006, the butanes).
    ///
    /// Example: 100 g of 30 % propane, 70 % isobutane take 183.5 mL.
    /// ```
    /// use leeside::physics::vapour::Liquid;
    /// use leeside::units::Mass;
    /// let [propane, isobutane, butane] = [30.0, 70.0, 0.0].map(Mass::grams);
    /// let volume = Liquid { propane, isobutane, butane }.volume_at_15_celsius();
    /// assert!((volume.in_millilitres() - 183.45).abs() < 0.01);
    /// ```
    #[must_use]
    pub fn volume_at_15_celsius(&self) -> Volume {
        Component::ALL
            .into_iter()
            .map(|component| {
                let mass = self.mass_of(component).in_kilograms();
                Volume::litres(mass / component.kilograms_a_litre_at_15_c())
            })
            .sum()
    }
}

/// Pressure (absolute) over a liquid mixture: that at which its first bubble forms.
///
/// Formula: p = sum of x_i p_i(T) (Raoult's law), x_i by molecules, p_i by
/// [`saturation_pressure_wagner`].
///
/// Valid: where all three correlations are, -108.1 C to 96.7 C; `None` outside it and for an
/// empty liquid. Within 4.5 % of a reference mixture model at -30 to 30 C, mostly above it.
///
/// Source: Raoult's law; Poling, Prausnitz, O'Connell, The Properties of Gases and Liquids, 2001.
///
/// Example: 30 % propane, 70 % n-butane at -5 C: 200.9 kPa.
/// ```
/// use leeside::physics::vapour::{Liquid, bubble_pressure_raoult};
/// use leeside::units::{Mass, Temperature};
/// let [propane, isobutane, butane] = [30.0, 0.0, 70.0].map(Mass::grams);
/// let liquid = Liquid { propane, isobutane, butane };
/// let p = bubble_pressure_raoult(&liquid, Temperature::celsius(-5.0)).unwrap();
/// assert!((p.in_kilopascals() - 200.95).abs() < 0.1);
/// ```
#[must_use]
pub fn bubble_pressure_raoult(liquid: &Liquid, t: Temperature) -> Option<Pressure> {
    if liquid.total() <= Mass::ZERO {
        return None;
    }
    let mut sum = Pressure::ZERO;
    for component in Component::ALL {
        let pure = saturation_pressure_wagner(component, t)?;
        sum += pure * liquid.mole_fraction(component).in_one();
    }
    Some(sum)
}
