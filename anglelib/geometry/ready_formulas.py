"""The formulas as they run: written by ``python -m tests.ready_formulas`` from their statements, never by hand.

Statements: 2b88406d400fc4ab
"""

from __future__ import annotations

from fractions import Fraction
from math import acos, asin, atan, cos, log, pi, sin, sqrt, tan

from anglelib.geometry.formula import elliptic_e, ready
from anglelib.geometry.quantities import QUANTITIES

stray = ready(
    "how far a turned cut strays", "n_d", "delta l_p", "derived from the drawing; checked against a solid",
    lambda delta, l_p: l_p*tan(delta),
    r"\ell_p \tan{\left(\delta \right)}",
    r"<l_p> \times \tan{\left(<delta> \right)}",
    l_p=(
        "delta n_d", lambda delta, n_d: n_d/tan(delta),
        r"\frac{n_d}{\tan{\left(\delta \right)}}", r"\frac{<n_d>}{\tan{\left(<delta> \right)}}",
    ),
)
least_allowance = ready(
    "least allowance, worst case", "d_w", "delta e_p f_p l_e", "derived from the drawing; checked against a solid",
    lambda delta, e_p, f_p, l_e: e_p + l_e*tan(delta)*max(f_p, 1 - f_p),
    r"e_p + \ell_e \tan{\left(\delta \right)} \max\left(f_p, 1 - f_p\right)",
    r"<e_p> + <l_e> \times \tan{\left(<delta> \right)} \times \max\left(<f_p>, 1 - <f_p>\right)",
    e_p=(
        "delta f_p l_e d_w", lambda delta, f_p, l_e, d_w: d_w - l_e*tan(delta)*max(f_p, 1 - f_p),
        r"d_w - \ell_e \tan{\left(\delta \right)} \max\left(f_p, 1 - f_p\right)", r"<d_w> - <l_e> \times \tan{\left(<delta> \right)} \times \max\left(<f_p>, 1 - <f_p>\right)",
    ),
)
gap_deviation = ready(
    "uncertainty of the gap at an end of the cut", "sigma_i", "l_p sigma_a sigma_p", "root sum of squares, JCGM 100:2008 (GUM) 5.1.2 (clause second-hand)",
    lambda l_p, sigma_a, sigma_p: sqrt(l_p**2*sigma_a**2 + sigma_p**2),
    r"\sqrt{\ell_p^{2} \sigma_a^{2} + \sigma_p^{2}}",
    r"\sqrt{<l_p>^{2} \times <sigma_a>^{2} + <sigma_p>^{2}}",
)
gap_covariance = ready(
    "covariance of the gaps at both ends of a cut", "sigma_12", "l_1 l_2 sigma_a sigma_p", "law of propagation, JCGM 100:2008 (GUM) 5.2.2 (clause second-hand)",
    lambda l_1, l_2, sigma_a, sigma_p: l_1*l_2*sigma_a**2 + sigma_p**2,
    r"\ell_1 \ell_2 \sigma_a^{2} + \sigma_p^{2}",
    r"<l_1> \times <l_2> \times <sigma_a>^{2} + <sigma_p>^{2}",
    l_1=(
        "l_2 sigma_a sigma_p sigma_12", lambda l_2, sigma_a, sigma_p, sigma_12: (sigma_12 - sigma_p**2)/(l_2*sigma_a**2),
        r"\frac{\sigma_{12} - \sigma_p^{2}}{\ell_2 \sigma_a^{2}}", r"\frac{<sigma_12> - <sigma_p>^{2}}{<l_2> \times <sigma_a>^{2}}",
    ),
    l_2=(
        "l_1 sigma_a sigma_p sigma_12", lambda l_1, sigma_a, sigma_p, sigma_12: (sigma_12 - sigma_p**2)/(l_1*sigma_a**2),
        r"\frac{\sigma_{12} - \sigma_p^{2}}{\ell_1 \sigma_a^{2}}", r"\frac{<sigma_12> - <sigma_p>^{2}}{<l_1> \times <sigma_a>^{2}}",
    ),
)
limits_deviation = ready(
    "standard uncertainty from limits", "u_l", "a_l", "JCGM 100:2008 (GUM) 4.3.7 (clause second-hand)",
    lambda a_l: (Fraction(1, 3))*sqrt(3)*a_l,
    r"\frac{\sqrt{3} a_l}{3}",
    r"\frac{\sqrt{3} \times <a_l>}{3}",
    a_l=(
        "u_l", lambda u_l: sqrt(3)*u_l,
        r"\sqrt{3} u_l", r"\sqrt{3} \times <u_l>",
    ),
)
growth = ready(
    "growth by heat", "dL", "L alpha dT", "definition of the expansion coefficient",
    lambda L, alpha, dT: L*alpha*dT,
    r"L \alpha \Delta T",
    r"<L> \times <alpha> \times <dT>",
    L=(
        "alpha dT dL", lambda alpha, dT, dL: dL/(alpha*dT),
        r"\frac{\Delta L}{\alpha \Delta T}", r"\frac{<dL>}{<alpha> \times <dT>}",
    ),
    dT=(
        "L alpha dL", lambda L, alpha, dL: dL/(L*alpha),
        r"\frac{\Delta L}{L \alpha}", r"\frac{<dL>}{<L> \times <alpha>}",
    ),
)
heating = ready(
    "temperature rise with no loss", "dT", "P_w c_p m_k t_s", "heat balance, nothing lost to air or table",
    lambda P_w, c_p, m_k, t_s: P_w*t_s/(c_p*m_k),
    r"\frac{P_w t_s}{c_p m_k}",
    r"\frac{<P_w> \times <t_s>}{<c_p> \times <m_k>}",
    t_s=(
        "P_w c_p m_k dT", lambda P_w, c_p, m_k, dT: c_p*dT*m_k/P_w,
        r"\frac{c_p \Delta T m_k}{P_w}", r"\frac{<c_p> \times <dT> \times <m_k>}{<P_w>}",
    ),
    m_k=(
        "P_w c_p t_s dT", lambda P_w, c_p, t_s, dT: P_w*t_s/(c_p*dT),
        r"\frac{P_w t_s}{c_p \Delta T}", r"\frac{<P_w> \times <t_s>}{<c_p> \times <dT>}",
    ),
)
plane_slope = ready(
    "slope of the saw plane from its line on a leg", "p", "theta_A", "derived from the drawing; checked against a solid",
    lambda theta_A: 1/tan(theta_A),
    r"\cot{\left(\theta_A \right)}",
    r"\cot{\left(<theta_A> \right)}",
    theta_A=(
        "p", lambda p: atan(1/p),
        r"\arctan{\left(\frac{1}{p} \right)}", r"\arctan{\left(\frac{1}{<p>} \right)}",
    ),
)
miter_flat = ready(
    "miter, the leg flat on the table", "mu", "p", "derived from the drawing; checked against a solid",
    lambda p: atan(p),
    r"\arctan{\left(p \right)}",
    r"\arctan{\left(<p> \right)}",
    p=(
        "mu", lambda mu: tan(mu),
        r"\tan{\left(\mu \right)}", r"\tan{\left(<mu> \right)}",
    ),
)
tilt_flat = ready(
    "tilt, the leg flat on the table", "nu", "mu q", "derived from the drawing; checked against a solid",
    lambda mu, q: atan(q*cos(mu)),
    r"\arctan{\left(q \cos{\left(\mu \right)} \right)}",
    r"\arctan{\left(<q> \times \cos{\left(<mu> \right)} \right)}",
    q=(
        "mu nu", lambda mu, nu: tan(nu)/cos(mu),
        r"\frac{\tan{\left(\nu \right)}}{\cos{\left(\mu \right)}}", r"\frac{\tan{\left(<nu> \right)}}{\cos{\left(<mu> \right)}}",
    ),
)
miter_heel_up = ready(
    "miter, heel up on both toes", "mu", "gamma p q", "derived from the drawing; checked against a solid",
    lambda gamma, p, q: atan(p*cos(gamma) - q*sin(gamma)),
    r"\arctan{\left(p \cos{\left(\gamma \right)} - q \sin{\left(\gamma \right)} \right)}",
    r"\arctan{\left(<p> \times \cos{\left(<gamma> \right)} - <q> \times \sin{\left(<gamma> \right)} \right)}",
    p=(
        "gamma q mu", lambda gamma, q, mu: (q*sin(gamma) + tan(mu))/cos(gamma),
        r"\frac{q \sin{\left(\gamma \right)} + \tan{\left(\mu \right)}}{\cos{\left(\gamma \right)}}", r"\frac{<q> \times \sin{\left(<gamma> \right)} + \tan{\left(<mu> \right)}}{\cos{\left(<gamma> \right)}}",
    ),
    q=(
        "gamma p mu", lambda gamma, p, mu: (p*cos(gamma) - tan(mu))/sin(gamma),
        r"\frac{p \cos{\left(\gamma \right)} - \tan{\left(\mu \right)}}{\sin{\left(\gamma \right)}}", r"\frac{<p> \times \cos{\left(<gamma> \right)} - \tan{\left(<mu> \right)}}{\sin{\left(<gamma> \right)}}",
    ),
)
tilt_heel_up = ready(
    "tilt, heel up on both toes", "nu", "gamma p q", "derived from the drawing; checked against a solid",
    lambda gamma, p, q: asin((p*sin(gamma) + q*cos(gamma))/sqrt(p**2 + q**2 + 1)),
    r"\arcsin{\left(\frac{p \sin{\left(\gamma \right)} + q \cos{\left(\gamma \right)}}{\sqrt{p^{2} + q^{2} + 1}} \right)}",
    r"\arcsin{\left(\frac{<p> \times \sin{\left(<gamma> \right)} + <q> \times \cos{\left(<gamma> \right)}}{\sqrt{<p>^{2} + <q>^{2} + 1}} \right)}",
)
slope_a_heel_up = ready(
    "slope of the line on leg A that heel-up settings give", "p", "gamma mu nu", "derived from the drawing; checked against a solid",
    lambda gamma, mu, nu: sin(gamma)*tan(nu)/cos(mu) + cos(gamma)*tan(mu),
    r"\frac{\sin{\left(\gamma \right)} \tan{\left(\nu \right)}}{\cos{\left(\mu \right)}} + \cos{\left(\gamma \right)} \tan{\left(\mu \right)}",
    r"\frac{\sin{\left(<gamma> \right)} \times \tan{\left(<nu> \right)}}{\cos{\left(<mu> \right)}} + \cos{\left(<gamma> \right)} \times \tan{\left(<mu> \right)}",
    nu=(
        "gamma mu p", lambda gamma, mu, p: atan((p - cos(gamma)*tan(mu))*cos(mu)/sin(gamma)),
        r"\arctan{\left(\frac{\left(p - \cos{\left(\gamma \right)} \tan{\left(\mu \right)}\right) \cos{\left(\mu \right)}}{\sin{\left(\gamma \right)}} \right)}", r"\arctan{\left(\frac{\left(<p> - \cos{\left(<gamma> \right)} \times \tan{\left(<mu> \right)}\right) \times \cos{\left(<mu> \right)}}{\sin{\left(<gamma> \right)}} \right)}",
    ),
)
slope_b_heel_up = ready(
    "slope of the line on leg B that heel-up settings give", "q", "gamma mu nu", "derived from the drawing; checked against a solid",
    lambda gamma, mu, nu: -sin(gamma)*tan(mu) + cos(gamma)*tan(nu)/cos(mu),
    r"\frac{\cos{\left(\gamma \right)} \tan{\left(\nu \right)}}{\cos{\left(\mu \right)}} - \sin{\left(\gamma \right)} \tan{\left(\mu \right)}",
    r"\frac{\cos{\left(<gamma> \right)} \times \tan{\left(<nu> \right)}}{\cos{\left(<mu> \right)}} - \sin{\left(<gamma> \right)} \times \tan{\left(<mu> \right)}",
    nu=(
        "gamma mu q", lambda gamma, mu, q: atan((q + sin(gamma)*tan(mu))*cos(mu)/cos(gamma)),
        r"\arctan{\left(\frac{\left(q + \sin{\left(\gamma \right)} \tan{\left(\mu \right)}\right) \cos{\left(\mu \right)}}{\cos{\left(\gamma \right)}} \right)}", r"\arctan{\left(\frac{\left(<q> + \sin{\left(<gamma> \right)} \times \tan{\left(<mu> \right)}\right) \times \cos{\left(<mu> \right)}}{\cos{\left(<gamma> \right)}} \right)}",
    ),
)
line_angle = ready(
    "angle of the cut's line on a leg, from its slope", "theta_A", "p", "derived from the drawing; checked against a solid",
    lambda p: -atan(p) + (Fraction(1, 2))*pi,
    r"\frac{\pi}{2} - \arctan{\left(p \right)}",
    r"\frac{\pi}{2} - \arctan{\left(<p> \right)}",
    p=(
        "theta_A", lambda theta_A: 1/tan(theta_A),
        r"\cot{\left(\theta_A \right)}", r"\cot{\left(<theta_A> \right)}",
    ),
)
least_teeth = ready(
    "least teeth to the inch", "N", "t z_n", "at least two teeth in the metal: Army PS magazine 671; NAVEDTRA 14119, chapter 5",
    lambda t, z_n: z_n/t,
    r"\frac{z_n}{t}",
    r"\frac{<z_n>}{<t>}",
    t=(
        "z_n N", lambda z_n, N: z_n/N,
        r"\frac{z_n}{N}", r"\frac{<z_n>}{<N>}",
    ),
    z_n=(
        "t N", lambda t, N: N*t,
        r"N t", r"<N> \times <t>",
    ),
)
most_teeth = ready(
    "most teeth to the inch", "N", "h_o z_m", "at most 24 teeth in the cut, or chips fill the gullets: trade guides to band saw blades",
    lambda h_o, z_m: z_m/h_o,
    r"\frac{z_m}{h_o}",
    r"\frac{<z_m>}{<h_o>}",
    h_o=(
        "z_m N", lambda z_m, N: z_m/N,
        r"\frac{z_m}{N}", r"\frac{<z_m>}{<N>}",
    ),
    z_m=(
        "h_o N", lambda h_o, N: N*h_o,
        r"N h_o", r"<N> \times <h_o>",
    ),
)
edge_in_diameters = ready(
    "edge distance in diameters", "e_D", "D e", "definition",
    lambda D, e: e/D,
    r"\frac{e}{D}",
    r"\frac{<e>}{<D>}",
    e=(
        "D e_D", lambda D, e_D: D*e_D,
        r"D e_D", r"<D> \times <e_D>",
    ),
    D=(
        "e e_D", lambda e, e_D: e/e_D,
        r"\frac{e}{e_D}", r"\frac{<e>}{<e_D>}",
    ),
)
row_start = ready(
    "nearest row of holes to the heel", "y_n", "H_d r t", "derived: the head clears the fillet",
    lambda H_d, r, t: (Fraction(1, 2))*H_d + r + t,
    r"\frac{H_d}{2} + r + t",
    r"\frac{<H_d>}{2} + <r> + <t>",
    r=(
        "H_d t y_n", lambda H_d, t, y_n: -Fraction(1, 2)*H_d - t + y_n,
        r"y_n - \frac{H_d}{2} - t", r"<y_n> - \frac{<H_d>}{2} - <t>",
    ),
    t=(
        "H_d r y_n", lambda H_d, r, y_n: -Fraction(1, 2)*H_d - r + y_n,
        r"y_n - \frac{H_d}{2} - r", r"<y_n> - \frac{<H_d>}{2} - <r>",
    ),
)
row_band = ready(
    "band for a row of holes", "w_y", "H_d W e r t", "derived: edge distance to the toe, head clear of the fillet",
    lambda H_d, W, e, r, t: -Fraction(1, 2)*H_d + W - e - r - t,
    r"W - \frac{H_d}{2} - e - r - t",
    r"<W> - \frac{<H_d>}{2} - <e> - <r> - <t>",
    W=(
        "H_d e r t w_y", lambda H_d, e, r, t, w_y: (Fraction(1, 2))*H_d + e + r + t + w_y,
        r"\frac{H_d}{2} + e + r + t + w_y", r"\frac{<H_d>}{2} + <e> + <r> + <t> + <w_y>",
    ),
)
least_angle = ready(
    "least angle that keeps the edge distance", "theta_m", "e s x y", "derived: the tangent from the line's start to the circle of radius e round the hole",
    lambda e, s, x, y: asin(e/sqrt(x**2 + (-s + y)**2)) + atan((-s + y)/x),
    r"\arcsin{\left(\frac{e}{\sqrt{x^{2} + \left(y - s\right)^{2}}} \right)} + \arctan{\left(\frac{y - s}{x} \right)}",
    r"\arcsin{\left(\frac{<e>}{\sqrt{<x>^{2} + \left(<y> - <s>\right)^{2}}} \right)} + \arctan{\left(\frac{<y> - <s>}{<x>} \right)}",
)
greatest_angle = ready(
    "largest angle that keeps the edge distance, run fixed", "theta_M", "W X e x y", "derived: the tangent from the toe mark to the circle of radius e round the hole",
    lambda W, X, e, x, y: acos(e/sqrt((W - y)**2 + (-X + x)**2)) + atan((-X + x)/(W - y)),
    r"\arccos{\left(\frac{e}{\sqrt{\left(W - y\right)^{2} + \left(x - X\right)^{2}}} \right)} + \arctan{\left(\frac{x - X}{W - y} \right)}",
    r"\arccos{\left(\frac{<e>}{\sqrt{\left(<W> - <y>\right)^{2} + \left(<x> - <X>\right)^{2}}} \right)} + \arctan{\left(\frac{<x> - <X>}{<W> - <y>} \right)}",
)
run_at_angle = ready(
    "largest run that keeps the edge distance, angle fixed", "X", "W e theta x y", "derived: the line at that angle that touches the circle of radius e round the hole",
    lambda W, e, theta, x, y: x + (-e + (W - y)*cos(theta))/sin(theta),
    r"x + \frac{\left(W - y\right) \cos{\left(\theta \right)} - e}{\sin{\left(\theta \right)}}",
    r"<x> + \frac{\left(<W> - <y>\right) \times \cos{\left(<theta> \right)} - <e>}{\sin{\left(<theta> \right)}}",
    e=(
        "W theta x y X", lambda W, theta, x, y, X: (W - y)*cos(theta) + (-X + x)*sin(theta),
        r"\left(W - y\right) \cos{\left(\theta \right)} + \left(x - X\right) \sin{\left(\theta \right)}", r"\left(<W> - <y>\right) \times \cos{\left(<theta> \right)} + \left(<x> - <X>\right) \times \sin{\left(<theta> \right)}",
    ),
    x=(
        "W e theta y X", lambda W, e, theta, y, X: X - (-e + (W - y)*cos(theta))/sin(theta),
        r"X - \frac{\left(W - y\right) \cos{\left(\theta \right)} - e}{\sin{\left(\theta \right)}}", r"<X> - \frac{\left(<W> - <y>\right) \times \cos{\left(<theta> \right)} - <e>}{\sin{\left(<theta> \right)}}",
    ),
    y=(
        "W e theta x X", lambda W, e, theta, x, X: W - (e + (X - x)*sin(theta))/cos(theta),
        r"W - \frac{e + \left(X - x\right) \sin{\left(\theta \right)}}{\cos{\left(\theta \right)}}", r"<W> - \frac{<e> + \left(<X> - <x>\right) \times \sin{\left(<theta> \right)}}{\cos{\left(<theta> \right)}}",
    ),
)
run_before_bevel = ready(
    "largest run whose bevel keeps the other leg's hole, slope fixed", "X", "W c e t x_n", "derived: the bevelled inner face governs",
    lambda W, c, e, t, x_n: c*(W - t) - e + x_n,
    r"c \left(W - t\right) + x_n - e",
    r"<c> \times \left(<W> - <t>\right) + <x_n> - <e>",
    c=(
        "W e t x_n X", lambda W, e, t, x_n, X: (X + e - x_n)/(W - t),
        r"\frac{X + e - x_n}{W - t}", r"\frac{<X> + <e> - <x_n>}{<W> - <t>}",
    ),
    x_n=(
        "W c e t X", lambda W, c, e, t, X: X - c*(W - t) + e,
        r"X + e - c \left(W - t\right)", r"<X> + <e> - <c> \times \left(<W> - <t>\right)",
    ),
    e=(
        "W c t x_n X", lambda W, c, t, x_n, X: -X + c*(W - t) + x_n,
        r"c \left(W - t\right) + x_n - X", r"<c> \times \left(<W> - <t>\right) + <x_n> - <X>",
    ),
)
behind_bevel = ready(
    "nearest hole to the end behind a taper of the other leg", "x_n", "c e s t", "derived: the bevelled inner face governs",
    lambda c, e, s, t: c*(-s + t) + e,
    r"c \left(t - s\right) + e",
    r"<c> \times \left(<t> - <s>\right) + <e>",
    e=(
        "c s t x_n", lambda c, s, t, x_n: -c*(-s + t) + x_n,
        r"x_n - c \left(t - s\right)", r"<x_n> - <c> \times \left(<t> - <s>\right)",
    ),
    c=(
        "e s t x_n", lambda e, s, t, x_n: (-e + x_n)/(-s + t),
        r"\frac{x_n - e}{t - s}", r"\frac{<x_n> - <e>}{<t> - <s>}",
    ),
    t=(
        "c e s x_n", lambda c, e, s, x_n: s + (-e + x_n)/c,
        r"s + \frac{x_n - e}{c}", r"<s> + \frac{<x_n> - <e>}{<c>}",
    ),
    s=(
        "c e t x_n", lambda c, e, t, x_n: t - (-e + x_n)/c,
        r"t - \frac{x_n - e}{c}", r"<t> - \frac{<x_n> - <e>}{<c>}",
    ),
)
rivet_length = ready(
    "length of a rivet", "l_r", "D G", "NAVEDTRA 14018: grip plus one and a half diameters",
    lambda D, G: (Fraction(3, 2))*D + G,
    r"\frac{3 D}{2} + G",
    r"\frac{3 \times <D>}{2} + <G>",
    G=(
        "D l_r", lambda D, l_r: -Fraction(3, 2)*D + l_r,
        r"\ell_r - \frac{3 D}{2}", r"<l_r> - \frac{3 \times <D>}{2}",
    ),
)
hours_allowed = ready(
    "hours allowed at a sound level", "T_h", "L_A", "29 CFR 1910.95 appendix A, table G-16a (footnote)",
    lambda L_A: 8/2**((L_A - 90)/5),
    r"\frac{8}{2^{\frac{L_A - 90}{5}}}",
    r"\frac{8}{2^{\frac{<L_A> - 90}{5}}}",
    L_A=(
        "T_h", lambda T_h: 5*log(8/T_h)/log(2) + 90,
        r"\frac{5 \log{\left(\frac{8}{T_h} \right)}}{\log{\left(2 \right)}} + 90", r"\frac{5 \times \log{\left(\frac{8}{<T_h>} \right)}}{\log{\left(2 \right)}} + 90",
    ),
)
corner_loss = ready(
    "length lost from a rounded corner", "x_r", "phi rho", "derived from the drawing; checked against a solid",
    lambda phi, rho: rho*(-1 + 1/sin((Fraction(1, 2))*phi)),
    r"\rho \left(\frac{1}{\sin{\left(\frac{\varphi}{2} \right)}} - 1\right)",
    r"<rho> \times \left(\frac{1}{\sin{\left(\frac{<phi>}{2} \right)}} - 1\right)",
    rho=(
        "phi x_r", lambda phi, x_r: x_r/(-1 + 1/sin((Fraction(1, 2))*phi)),
        r"\frac{x_r}{\frac{1}{\sin{\left(\frac{\varphi}{2} \right)}} - 1}", r"\frac{<x_r>}{\frac{1}{\sin{\left(\frac{<phi>}{2} \right)}} - 1}",
    ),
)
tangent_length = ready(
    "where the rounding begins", "t_r", "phi rho", "derived from the drawing; checked against a solid",
    lambda phi, rho: rho/tan((Fraction(1, 2))*phi),
    r"\frac{\rho}{\tan{\left(\frac{\varphi}{2} \right)}}",
    r"\frac{<rho>}{\tan{\left(\frac{<phi>}{2} \right)}}",
    rho=(
        "phi t_r", lambda phi, t_r: t_r*tan((Fraction(1, 2))*phi),
        r"t_r \tan{\left(\frac{\varphi}{2} \right)}", r"<t_r> \times \tan{\left(\frac{<phi>}{2} \right)}",
    ),
)
arc_length = ready(
    "length of the arc", "l_a", "phi rho", "definition of the radian",
    lambda phi, rho: rho*(pi - phi),
    r"\rho \left(\pi - \varphi\right)",
    r"<rho> \times \left(\pi - <phi>\right)",
    rho=(
        "phi l_a", lambda phi, l_a: l_a/(pi - phi),
        r"\frac{\ell_a}{\pi - \varphi}", r"\frac{<l_a>}{\pi - <phi>}",
    ),
)
area_lost = ready(
    "area lost by rounding", "A_r", "phi rho", "derived from the drawing; checked against a solid",
    lambda phi, rho: rho**2*((Fraction(1, 2))*phi - Fraction(1, 2)*pi + 1/tan((Fraction(1, 2))*phi)),
    r"\rho^{2} \left(\frac{\varphi}{2} + \frac{1}{\tan{\left(\frac{\varphi}{2} \right)}} - \frac{\pi}{2}\right)",
    r"<rho>^{2} \times \left(\frac{<phi>}{2} + \frac{1}{\tan{\left(\frac{<phi>}{2} \right)}} - \frac{\pi}{2}\right)",
    rho=(
        "phi A_r", lambda phi, A_r: sqrt(A_r/((Fraction(1, 2))*phi - Fraction(1, 2)*pi + 1/tan((Fraction(1, 2))*phi))),
        r"\sqrt{\frac{A_r}{\frac{\varphi}{2} + \frac{1}{\tan{\left(\frac{\varphi}{2} \right)}} - \frac{\pi}{2}}}", r"\sqrt{\frac{<A_r>}{\frac{<phi>}{2} + \frac{1}{\tan{\left(\frac{<phi>}{2} \right)}} - \frac{\pi}{2}}}",
    ),
)
largest_radius = ready(
    "largest radius that keeps a hole's edge distance", "rho", "e n_1 n_2 phi", "derived: the arc whose centre is a radius less the edge distance from the hole",
    lambda e, n_1, n_2, phi: e + (Fraction(1, 2))*(-2*e + n_1 + n_2 + 2*sqrt((-e + n_1)*(-e + n_2))*sin((Fraction(1, 2))*phi))/cos((Fraction(1, 2))*phi)**2,
    r"e + \frac{n_1 + n_2 + 2 \sqrt{\left(n_1 - e\right) \left(n_2 - e\right)} \sin{\left(\frac{\varphi}{2} \right)} - 2 e}{2 \cos^{2}{\left(\frac{\varphi}{2} \right)}}",
    r"<e> + \frac{<n_1> + <n_2> + 2 \times \sqrt{\left(<n_1> - <e>\right) \times \left(<n_2> - <e>\right)} \times \sin{\left(\frac{<phi>}{2} \right)} - 2 \times <e>}{2 \times \cos^{2}{\left(\frac{<phi>}{2} \right)}}",
)
nose_loss = ready(
    "length lost at the nose of a vertex taper", "x_o", "rho theta", "derived from the drawing; checked against a solid",
    lambda rho, theta: -rho + rho/tan((Fraction(1, 2))*theta),
    r"\frac{\rho}{\tan{\left(\frac{\theta}{2} \right)}} - \rho",
    r"\frac{<rho>}{\tan{\left(\frac{<theta>}{2} \right)}} - <rho>",
    rho=(
        "theta x_o", lambda theta, x_o: x_o/(-1 + 1/tan((Fraction(1, 2))*theta)),
        r"\frac{x_o}{\frac{1}{\tan{\left(\frac{\theta}{2} \right)}} - 1}", r"\frac{<x_o>}{\frac{1}{\tan{\left(\frac{<theta>}{2} \right)}} - 1}",
    ),
)
largest_nose = ready(
    "largest radius of the nose of a vertex taper", "rho", "W theta", "derived: the arc leaves the tapered edge at the toe",
    lambda W, theta: W/(cos(theta) + 1),
    r"\frac{W}{\cos{\left(\theta \right)} + 1}",
    r"\frac{<W>}{\cos{\left(<theta> \right)} + 1}",
    W=(
        "theta rho", lambda theta, rho: rho*(cos(theta) + 1),
        r"\rho \left(\cos{\left(\theta \right)} + 1\right)", r"<rho> \times \left(\cos{\left(<theta> \right)} + 1\right)",
    ),
    theta=(
        "W rho", lambda W, rho: acos(W/rho - 1),
        r"\arccos{\left(\frac{W}{\rho} - 1 \right)}", r"\arccos{\left(\frac{<W>}{<rho>} - 1 \right)}",
    ),
)
stepped_error = ready(
    "error of stepping off, all steps alike", "E_n", "e_1 n_s", "sum of equal errors",
    lambda e_1, n_s: e_1*n_s,
    r"e_1 n_s",
    r"<e_1> \times <n_s>",
    e_1=(
        "n_s E_n", lambda n_s, E_n: E_n/n_s,
        r"\frac{E_n}{n_s}", r"\frac{<E_n>}{<n_s>}",
    ),
    n_s=(
        "e_1 E_n", lambda e_1, E_n: E_n/e_1,
        r"\frac{E_n}{e_1}", r"\frac{<E_n>}{<e_1>}",
    ),
)
stepped_scatter = ready(
    "error of stepping off, steps independent", "E_r", "e_1 n_s", "root sum of squares, JCGM 100:2008 (GUM) 5.1.2 (clause second-hand)",
    lambda e_1, n_s: e_1*sqrt(n_s),
    r"e_1 \sqrt{n_s}",
    r"<e_1> \times \sqrt{<n_s>}",
    e_1=(
        "n_s E_r", lambda n_s, E_r: E_r/sqrt(n_s),
        r"\frac{E_r}{\sqrt{n_s}}", r"\frac{<E_r>}{\sqrt{<n_s>}}",
    ),
)
shift_along = ready(
    "shift of a mark along the heel or the toe", "dx", "e_s theta", "derived from the drawing; checked against a solid",
    lambda e_s, theta: e_s/sin(theta),
    r"\frac{e_s}{\sin{\left(\theta \right)}}",
    r"\frac{<e_s>}{\sin{\left(<theta> \right)}}",
    e_s=(
        "theta dx", lambda theta, dx: dx*sin(theta),
        r"\Delta x \sin{\left(\theta \right)}", r"<dx> \times \sin{\left(<theta> \right)}",
    ),
    theta=(
        "e_s dx", lambda e_s, dx: asin(e_s/dx),
        r"\arcsin{\left(\frac{e_s}{\Delta x} \right)}", r"\arcsin{\left(\frac{<e_s>}{<dx>} \right)}",
    ),
)
shift_across = ready(
    "shift of a mark on the end", "dy", "e_s theta", "derived from the drawing; checked against a solid",
    lambda e_s, theta: e_s/cos(theta),
    r"\frac{e_s}{\cos{\left(\theta \right)}}",
    r"\frac{<e_s>}{\cos{\left(<theta> \right)}}",
    e_s=(
        "theta dy", lambda theta, dy: dy*cos(theta),
        r"\Delta y \cos{\left(\theta \right)}", r"<dy> \times \cos{\left(<theta> \right)}",
    ),
)
saw_line_projection = ready(
    "saw line on the other leg's inner face", "x_s", "e_s s t theta", "derived from the drawing; checked against a solid",
    lambda e_s, s, t, theta: -e_s/sin(theta) + (-s + t)/tan(theta),
    r"\left(t - s\right) \cot{\left(\theta \right)} - \frac{e_s}{\sin{\left(\theta \right)}}",
    r"\left(<t> - <s>\right) \times \cot{\left(<theta> \right)} - \frac{<e_s>}{\sin{\left(<theta> \right)}}",
    e_s=(
        "s t theta x_s", lambda s, t, theta, x_s: (-x_s + (-s + t)/tan(theta))*sin(theta),
        r"\left(\left(t - s\right) \cot{\left(\theta \right)} - x_s\right) \sin{\left(\theta \right)}", r"\left(\left(<t> - <s>\right) \times \cot{\left(<theta> \right)} - <x_s>\right) \times \sin{\left(<theta> \right)}",
    ),
    t=(
        "e_s s theta x_s", lambda e_s, s, theta, x_s: s + (e_s/sin(theta) + x_s)*tan(theta),
        r"s + \left(\frac{e_s}{\sin{\left(\theta \right)}} + x_s\right) \tan{\left(\theta \right)}", r"<s> + \left(\frac{<e_s>}{\sin{\left(<theta> \right)}} + <x_s>\right) \times \tan{\left(<theta> \right)}",
    ),
    s=(
        "e_s t theta x_s", lambda e_s, t, theta, x_s: t - (e_s/sin(theta) + x_s)*tan(theta),
        r"t - \left(\frac{e_s}{\sin{\left(\theta \right)}} + x_s\right) \tan{\left(\theta \right)}", r"<t> - \left(\frac{<e_s>}{\sin{\left(<theta> \right)}} + <x_s>\right) \times \tan{\left(<theta> \right)}",
    ),
)
blade_middle = ready(
    "middle of the kerf, from the finished line", "d_m", "e_s k", "definition of kerf",
    lambda e_s, k: e_s + (Fraction(1, 2))*k,
    r"e_s + \frac{k}{2}",
    r"<e_s> + \frac{<k>}{2}",
    k=(
        "e_s d_m", lambda e_s, d_m: 2*d_m - 2*e_s,
        r"2 d_m - 2 e_s", r"2 \times <d_m> - 2 \times <e_s>",
    ),
    e_s=(
        "k d_m", lambda k, d_m: d_m - Fraction(1, 2)*k,
        r"d_m - \frac{k}{2}", r"<d_m> - \frac{<k>}{2}",
    ),
)
blade_far_side = ready(
    "far side of the kerf, from the finished line", "d_f", "e_s k", "definition of kerf",
    lambda e_s, k: e_s + k,
    r"e_s + k",
    r"<e_s> + <k>",
    k=(
        "e_s d_f", lambda e_s, d_f: d_f - e_s,
        r"d_f - e_s", r"<d_f> - <e_s>",
    ),
    e_s=(
        "k d_f", lambda k, d_f: d_f - k,
        r"d_f - k", r"<d_f> - <k>",
    ),
)
blank_length = ready(
    "length of a blank", "L_b", "L e_s n_e", "definition of the sanding allowance",
    lambda L, e_s, n_e: L + e_s*n_e,
    r"L + e_s n_e",
    r"<L> + <e_s> \times <n_e>",
    L=(
        "e_s n_e L_b", lambda e_s, n_e, L_b: L_b - e_s*n_e,
        r"L_b - e_s n_e", r"<L_b> - <e_s> \times <n_e>",
    ),
    n_e=(
        "L e_s L_b", lambda L, e_s, L_b: (-L + L_b)/e_s,
        r"\frac{L_b - L}{e_s}", r"\frac{<L_b> - <L>}{<e_s>}",
    ),
    e_s=(
        "L n_e L_b", lambda L, n_e, L_b: (-L + L_b)/n_e,
        r"\frac{L_b - L}{n_e}", r"\frac{<L_b> - <L>}{<n_e>}",
    ),
)
batch_mark = ready(
    "saw mark of a piece in a batch", "x_m", "L_b k n_p", "one kerf between two blanks",
    lambda L_b, k, n_p: L_b*n_p + k*(n_p - 1),
    r"L_b n_p + k \left(n_p - 1\right)",
    r"<L_b> \times <n_p> + <k> \times \left(<n_p> - 1\right)",
    L_b=(
        "k n_p x_m", lambda k, n_p, x_m: (-k*(n_p - 1) + x_m)/n_p,
        r"\frac{x_m - k \left(n_p - 1\right)}{n_p}", r"\frac{<x_m> - <k> \times \left(<n_p> - 1\right)}{<n_p>}",
    ),
    k=(
        "L_b n_p x_m", lambda L_b, n_p, x_m: (-L_b*n_p + x_m)/(n_p - 1),
        r"\frac{x_m - L_b n_p}{n_p - 1}", r"\frac{<x_m> - <L_b> \times <n_p>}{<n_p> - 1}",
    ),
    n_p=(
        "L_b k x_m", lambda L_b, k, x_m: (k + x_m)/(L_b + k),
        r"\frac{k + x_m}{L_b + k}", r"\frac{<k> + <x_m>}{<L_b> + <k>}",
    ),
)
kerf_of_blade = ready(
    "kerf of a blade whose teeth are set", "k", "g_b s_t", "the blade's gauge and the set on both sides: a saw manual",
    lambda g_b, s_t: g_b + 2*s_t,
    r"g_b + 2 s_t",
    r"<g_b> + 2 \times <s_t>",
    g_b=(
        "s_t k", lambda s_t, k: k - 2*s_t,
        r"k - 2 s_t", r"<k> - 2 \times <s_t>",
    ),
    s_t=(
        "g_b k", lambda g_b, k: -Fraction(1, 2)*g_b + (Fraction(1, 2))*k,
        r"\frac{k}{2} - \frac{g_b}{2}", r"\frac{<k>}{2} - \frac{<g_b>}{2}",
    ),
)
error_along = ready(
    "shift of the line by an error of a mark along the heel", "n_x", "m theta", "derived from the drawing; checked against a solid",
    lambda m, theta: m*sin(theta),
    r"m \sin{\left(\theta \right)}",
    r"<m> \times \sin{\left(<theta> \right)}",
    m=(
        "theta n_x", lambda theta, n_x: n_x/sin(theta),
        r"\frac{n_x}{\sin{\left(\theta \right)}}", r"\frac{<n_x>}{\sin{\left(<theta> \right)}}",
    ),
)
error_across = ready(
    "shift of the line by an error of a mark across the leg", "n_y", "m theta", "derived from the drawing; checked against a solid",
    lambda m, theta: m*cos(theta),
    r"m \cos{\left(\theta \right)}",
    r"<m> \times \cos{\left(<theta> \right)}",
    m=(
        "theta n_y", lambda theta, n_y: n_y/cos(theta),
        r"\frac{n_y}{\cos{\left(\theta \right)}}", r"\frac{<n_y>}{\cos{\left(<theta> \right)}}",
    ),
)
heel_up_height = ready(
    "height of the heel above the table, heel up on both toes", "h_u", "a b r2 tA tB", "derived: distance from the heel to the line that touches both inner toes",
    lambda a, b, r2, tA, tB: r2 + ((a - r2)*(b - r2) - (-r2 + tA)*(-r2 + tB))/sqrt((a - tB)**2 + (b - tA)**2),
    r"r_2 + \frac{\left(a - r_2\right) \left(b - r_2\right) - \left(t_A - r_2\right) \left(t_B - r_2\right)}{\sqrt{\left(a - t_B\right)^{2} + \left(b - t_A\right)^{2}}}",
    r"<r2> + \frac{\left(<a> - <r2>\right) \times \left(<b> - <r2>\right) - \left(<tA> - <r2>\right) \times \left(<tB> - <r2>\right)}{\sqrt{\left(<a> - <tB>\right)^{2} + \left(<b> - <tA>\right)^{2}}}",
)
heel_up_slope = ready(
    "slope of leg A on the table, heel up on both toes", "gamma", "a b tA tB", "derived: the line that touches both inner toes",
    lambda a, b, tA, tB: atan((b - tA)/(a - tB)),
    r"\arctan{\left(\frac{b - t_A}{a - t_B} \right)}",
    r"\arctan{\left(\frac{<b> - <tA>}{<a> - <tB>} \right)}",
)
heel_up_metal = ready(
    "metal in front of the blade in a sloping leg", "w", "gamma t", "derived from the drawing; checked against a solid",
    lambda gamma, t: t/cos(gamma),
    r"\frac{t}{\cos{\left(\gamma \right)}}",
    r"\frac{<t>}{\cos{\left(<gamma> \right)}}",
    t=(
        "gamma w", lambda gamma, w: w*cos(gamma),
        r"w \cos{\left(\gamma \right)}", r"<w> \times \cos{\left(<gamma> \right)}",
    ),
)
hanging_reach = ready(
    "how far the hanging leg reaches below the block's top", "h_l", "b tA", "derived from the drawing; checked against a solid",
    lambda b, tA: b - tA,
    r"b - t_A",
    r"<b> - <tA>",
    b=(
        "tA h_l", lambda tA, h_l: h_l + tA,
        r"h_\ell + t_A", r"<h_l> + <tA>",
    ),
    tA=(
        "b h_l", lambda b, h_l: b - h_l,
        r"b - h_\ell", r"<b> - <h_l>",
    ),
)
block_height = ready(
    "least height of the block under a leg", "h_b", "b c_b tA", "derived: the reach of the hanging leg, and a clearance, which is common practice",
    lambda b, c_b, tA: b + c_b - tA,
    r"b + c_b - t_A",
    r"<b> + <c_b> - <tA>",
    b=(
        "c_b tA h_b", lambda c_b, tA, h_b: -c_b + h_b + tA,
        r"h_b + t_A - c_b", r"<h_b> + <tA> - <c_b>",
    ),
    tA=(
        "b c_b h_b", lambda b, c_b, h_b: b + c_b - h_b,
        r"b + c_b - h_b", r"<b> + <c_b> - <h_b>",
    ),
    c_b=(
        "b tA h_b", lambda b, tA, h_b: -b + h_b + tA,
        r"h_b + t_A - b", r"<h_b> + <tA> - <b>",
    ),
)
block_top = ready(
    "highest metal above the table, a leg on its block", "h_t", "h_b tA", "derived from the drawing; checked against a solid",
    lambda h_b, tA: h_b + tA,
    r"h_b + t_A",
    r"<h_b> + <tA>",
    h_b=(
        "tA h_t", lambda tA, h_t: h_t - tA,
        r"h_t - t_A", r"<h_t> - <tA>",
    ),
    tA=(
        "h_b h_t", lambda h_b, h_t: -h_b + h_t,
        r"h_t - h_b", r"<h_t> - <h_b>",
    ),
)
fillet_area = ready(
    "area of the metal in the fillet", "A_f", "r", "a square less a quarter circle",
    lambda r: r**2*(1 - Fraction(1, 4)*pi),
    r"r^{2} \left(1 - \frac{\pi}{4}\right)",
    r"<r>^{2} \times \left(1 - \frac{\pi}{4}\right)",
    r=(
        "A_f", lambda A_f: sqrt(A_f)/sqrt(1 - Fraction(1, 4)*pi),
        r"\frac{\sqrt{A_f}}{\sqrt{1 - \frac{\pi}{4}}}", r"\frac{\sqrt{<A_f>}}{\sqrt{1 - \frac{\pi}{4}}}",
    ),
)
fillet_centroid = ready(
    "centroid of the metal in the fillet", "y_f", "r", "a square less a quarter circle",
    lambda r: r*(10 - 3*pi)/(12 - 3*pi),
    r"\frac{r \left(10 - 3 \pi\right)}{12 - 3 \pi}",
    r"\frac{<r> \times \left(10 - 3 \times \pi\right)}{12 - 3 \times \pi}",
    r=(
        "y_f", lambda y_f: 3*y_f*(4 - pi)/(10 - 3*pi),
        r"\frac{3 y_f \left(4 - \pi\right)}{10 - 3 \pi}", r"\frac{3 \times <y_f> \times \left(4 - \pi\right)}{10 - 3 \times \pi}",
    ),
)
section_area = ready(
    "area of the section", "A", "Rh a b r r2 tA tB", "derived from the drawing; checked against a solid",
    lambda Rh, a, b, r, r2, tA, tB: a*tA + tB*(b - tA) + (1 - Fraction(1, 4)*pi)*(-Rh**2 + r**2 - 2*r2**2),
    r"a t_A + t_B \left(b - t_A\right) + \left(1 - \frac{\pi}{4}\right) \left(r^{2} - R_h^{2} - 2 r_2^{2}\right)",
    r"<a> \times <tA> + <tB> \times \left(<b> - <tA>\right) + \left(1 - \frac{\pi}{4}\right) \times \left(<r>^{2} - <Rh>^{2} - 2 \times <r2>^{2}\right)",
    a=(
        "Rh b r r2 tA tB A", lambda Rh, b, r, r2, tA, tB, A: (A - tB*(b - tA) - (1 - Fraction(1, 4)*pi)*(-Rh**2 + r**2 - 2*r2**2))/tA,
        r"\frac{A - t_B \left(b - t_A\right) - \left(1 - \frac{\pi}{4}\right) \left(r^{2} - R_h^{2} - 2 r_2^{2}\right)}{t_A}", r"\frac{<A> - <tB> \times \left(<b> - <tA>\right) - \left(1 - \frac{\pi}{4}\right) \times \left(<r>^{2} - <Rh>^{2} - 2 \times <r2>^{2}\right)}{<tA>}",
    ),
)
section_outline = ready(
    "length of the section's outline", "O_s", "Rh a b r r2", "derived from the drawing; checked against a solid",
    lambda Rh, a, b, r, r2: 2*a + 2*b - (2 - Fraction(1, 2)*pi)*(Rh + r + 2*r2),
    r"2 a + 2 b - \left(2 - \frac{\pi}{2}\right) \left(R_h + r + 2 r_2\right)",
    r"2 \times <a> + 2 \times <b> - \left(2 - \frac{\pi}{2}\right) \times \left(<Rh> + <r> + 2 \times <r2>\right)",
    a=(
        "Rh b r r2 O_s", lambda Rh, b, r, r2, O_s: (Fraction(1, 2))*O_s - b + (Fraction(1, 2))*(2 - Fraction(1, 2)*pi)*(Rh + r + 2*r2),
        r"\frac{O_s}{2} + \frac{\left(2 - \frac{\pi}{2}\right) \left(R_h + r + 2 r_2\right)}{2} - b", r"\frac{<O_s>}{2} + \frac{\left(2 - \frac{\pi}{2}\right) \times \left(<Rh> + <r> + 2 \times <r2>\right)}{2} - <b>",
    ),
)
largest_heel = ready(
    "largest heel radius that leaves metal behind the fillet", "Rh", "r tA tB", "derived: the arc that touches both outer faces and the fillet's; t (2 + sqrt 2) for equal legs, square inside",
    lambda r, tA, tB: r + tA + tB + sqrt(2)*sqrt(tA*tB),
    r"r + t_A + t_B + \sqrt{2} \sqrt{t_A t_B}",
    r"<r> + <tA> + <tB> + \sqrt{2} \times \sqrt{<tA> \times <tB>}",
    r=(
        "tA tB Rh", lambda tA, tB, Rh: Rh - tA - tB - sqrt(2)*sqrt(tA*tB),
        r"R_h - t_A - t_B - \sqrt{2} \sqrt{t_A t_B}", r"<Rh> - <tA> - <tB> - \sqrt{2} \times \sqrt{<tA> \times <tB>}",
    ),
)
smallest_moment = ready(
    "smallest second moment of area", "I_v", "I_y I_yz I_z", "principal axes of a symmetric matrix",
    lambda I_y, I_yz, I_z: (Fraction(1, 2))*I_y + (Fraction(1, 2))*I_z - sqrt(I_yz**2 + ((Fraction(1, 2))*I_y - Fraction(1, 2)*I_z)**2),
    r"\frac{I_y}{2} + \frac{I_z}{2} - \sqrt{I_{yz}^{2} + \left(\frac{I_y}{2} - \frac{I_z}{2}\right)^{2}}",
    r"\frac{<I_y>}{2} + \frac{<I_z>}{2} - \sqrt{<I_yz>^{2} + \left(\frac{<I_y>}{2} - \frac{<I_z>}{2}\right)^{2}}",
)
smallest_gyration = ready(
    "smallest radius of gyration", "i_v", "A I_v", "definition",
    lambda A, I_v: sqrt(I_v/A),
    r"\sqrt{\frac{I_v}{A}}",
    r"\sqrt{\frac{<I_v>}{<A>}}",
    I_v=(
        "A i_v", lambda A, i_v: A*i_v**2,
        r"A i_v^{2}", r"<A> \times <i_v>^{2}",
    ),
)
end_slope = ready(
    "slope of an end out of square", "p", "e_A", "derived from the drawing; checked against a solid",
    lambda e_A: tan(e_A),
    r"\tan{\left(\varepsilon_A \right)}",
    r"\tan{\left(<e_A> \right)}",
    e_A=(
        "p", lambda p: atan(p),
        r"\arctan{\left(p \right)}", r"\arctan{\left(<p> \right)}",
    ),
)
light_gap = ready(
    "gap of light at the toe", "g", "W e_A", "derived from the drawing; checked against a solid",
    lambda W, e_A: W*tan(e_A),
    r"W \tan{\left(\varepsilon_A \right)}",
    r"<W> \times \tan{\left(<e_A> \right)}",
    e_A=(
        "W g", lambda W, g: atan(g/W),
        r"\arctan{\left(\frac{g}{W} \right)}", r"\arctan{\left(\frac{<g>}{<W>} \right)}",
    ),
    W=(
        "e_A g", lambda e_A, g: g/tan(e_A),
        r"\frac{g}{\tan{\left(\varepsilon_A \right)}}", r"\frac{<g>}{\tan{\left(<e_A> \right)}}",
    ),
)
out_of_square = ready(
    "out of square from the gap of light", "e_A", "W g", "derived from the drawing; checked against a solid",
    lambda W, g: atan(g/W),
    r"\arctan{\left(\frac{g}{W} \right)}",
    r"\arctan{\left(\frac{<g>}{<W>} \right)}",
    g=(
        "W e_A", lambda W, e_A: W*tan(e_A),
        r"W \tan{\left(\varepsilon_A \right)}", r"<W> \times \tan{\left(<e_A> \right)}",
    ),
    W=(
        "g e_A", lambda g, e_A: g/tan(e_A),
        r"\frac{g}{\tan{\left(\varepsilon_A \right)}}", r"\frac{<g>}{\tan{\left(<e_A> \right)}}",
    ),
)
flip_gap = ready(
    "gap between the lines of the flip test", "g_f", "e_q h_q", "derived from the drawing; checked against a solid",
    lambda e_q, h_q: 2*h_q*tan(e_q),
    r"2 h_q \tan{\left(\varepsilon_q \right)}",
    r"2 \times <h_q> \times \tan{\left(<e_q> \right)}",
    e_q=(
        "h_q g_f", lambda h_q, g_f: atan((Fraction(1, 2))*g_f/h_q),
        r"\arctan{\left(\frac{g_f}{2 h_q} \right)}", r"\arctan{\left(\frac{<g_f>}{2 \times <h_q>} \right)}",
    ),
    h_q=(
        "e_q g_f", lambda e_q, g_f: (Fraction(1, 2))*g_f/tan(e_q),
        r"\frac{g_f}{2 \tan{\left(\varepsilon_q \right)}}", r"\frac{<g_f>}{2 \times \tan{\left(<e_q> \right)}}",
    ),
)
inside_corner = ready(
    "inside corner where the legs are not at 90 degrees", "y_i", "beta tA tB", "derived from the drawing; checked against a solid",
    lambda beta, tA, tB: (-tA*sin(beta) + tB)/cos(beta),
    r"\frac{t_B - t_A \sin{\left(\beta \right)}}{\cos{\left(\beta \right)}}",
    r"\frac{<tB> - <tA> \times \sin{\left(<beta> \right)}}{\cos{\left(<beta> \right)}}",
    tB=(
        "beta tA y_i", lambda beta, tA, y_i: tA*sin(beta) + y_i*cos(beta),
        r"t_A \sin{\left(\beta \right)} + y_i \cos{\left(\beta \right)}", r"<tA> \times \sin{\left(<beta> \right)} + <y_i> \times \cos{\left(<beta> \right)}",
    ),
    tA=(
        "beta tB y_i", lambda beta, tB, y_i: (tB - y_i*cos(beta))/sin(beta),
        r"\frac{t_B - y_i \cos{\left(\beta \right)}}{\sin{\left(\beta \right)}}", r"\frac{<tB> - <y_i> \times \cos{\left(<beta> \right)}}{\sin{\left(<beta> \right)}}",
    ),
)
angularity_error = ready(
    "line on the other leg, legs not at 90 degrees", "e_B", "beta c", "derived from the drawing; checked against a solid",
    lambda beta, c: atan(c*sin(beta)),
    r"\arctan{\left(c \sin{\left(\beta \right)} \right)}",
    r"\arctan{\left(<c> \times \sin{\left(<beta> \right)} \right)}",
    beta=(
        "c e_B", lambda c, e_B: asin(tan(e_B)/c),
        r"\arcsin{\left(\frac{\tan{\left(\varepsilon_B \right)}}{c} \right)}", r"\arcsin{\left(\frac{\tan{\left(<e_B> \right)}}{<c>} \right)}",
    ),
    c=(
        "beta e_B", lambda beta, e_B: tan(e_B)/sin(beta),
        r"\frac{\tan{\left(\varepsilon_B \right)}}{\sin{\left(\beta \right)}}", r"\frac{\tan{\left(<e_B> \right)}}{\sin{\left(<beta> \right)}}",
    ),
)
open_tangent = ready(
    "where the fillet begins, legs not at 90 degrees", "y_t", "beta r tA tB", "derived: the circle that touches both inner faces",
    lambda beta, r, tA, tB: r/tan((Fraction(1, 2))*beta + (Fraction(1, 4))*pi) + (-tA*sin(beta) + tB)/cos(beta),
    r"r \cot{\left(\frac{\beta}{2} + \frac{\pi}{4} \right)} + \frac{t_B - t_A \sin{\left(\beta \right)}}{\cos{\left(\beta \right)}}",
    r"<r> \times \cot{\left(\frac{<beta>}{2} + \frac{\pi}{4} \right)} + \frac{<tB> - <tA> \times \sin{\left(<beta> \right)}}{\cos{\left(<beta> \right)}}",
    r=(
        "beta tA tB y_t", lambda beta, tA, tB, y_t: (y_t - (-tA*sin(beta) + tB)/cos(beta))*tan((Fraction(1, 2))*beta + (Fraction(1, 4))*pi),
        r"\frac{y_t - \frac{t_B - t_A \sin{\left(\beta \right)}}{\cos{\left(\beta \right)}}}{\cot{\left(\frac{\beta}{2} + \frac{\pi}{4} \right)}}", r"\frac{<y_t> - \frac{<tB> - <tA> \times \sin{\left(<beta> \right)}}{\cos{\left(<beta> \right)}}}{\cot{\left(\frac{<beta>}{2} + \frac{\pi}{4} \right)}}",
    ),
    tB=(
        "beta r tA y_t", lambda beta, r, tA, y_t: tA*sin(beta) + (-r/tan((Fraction(1, 2))*beta + (Fraction(1, 4))*pi) + y_t)*cos(beta),
        r"t_A \sin{\left(\beta \right)} + \left(y_t - r \cot{\left(\frac{\beta}{2} + \frac{\pi}{4} \right)}\right) \cos{\left(\beta \right)}", r"<tA> \times \sin{\left(<beta> \right)} + \left(<y_t> - <r> \times \cot{\left(\frac{<beta>}{2} + \frac{\pi}{4} \right)}\right) \times \cos{\left(<beta> \right)}",
    ),
)
inside_gap = ready(
    "gap of light beside a square set in the inside", "g", "beta y y_t", "derived: the inner face leans away from the blade",
    lambda beta, y, y_t: (y - y_t)*sin(beta),
    r"\left(y - y_t\right) \sin{\left(\beta \right)}",
    r"\left(<y> - <y_t>\right) \times \sin{\left(<beta> \right)}",
    y=(
        "beta y_t g", lambda beta, y_t, g: g/sin(beta) + y_t,
        r"\frac{g}{\sin{\left(\beta \right)}} + y_t", r"\frac{<g>}{\sin{\left(<beta> \right)}} + <y_t>",
    ),
    y_t=(
        "beta y g", lambda beta, y, g: -g/sin(beta) + y,
        r"y - \frac{g}{\sin{\left(\beta \right)}}", r"<y> - \frac{<g>}{\sin{\left(<beta> \right)}}",
    ),
    beta=(
        "y y_t g", lambda y, y_t, g: asin(g/(y - y_t)),
        r"\arcsin{\left(\frac{g}{y - y_t} \right)}", r"\arcsin{\left(\frac{<g>}{<y> - <y_t>} \right)}",
    ),
)
closed_nick = ready(
    "nick in the other leg's toe, legs closed", "x_k", "b c chi r2 s tB", "derived: the inner toe leans over the tapered leg, and the saw is square to that",
    lambda b, c, chi, r2, s, tB: c*(r2 - s + (b - r2)*sin(chi) + (-r2 + tB)*cos(chi)),
    r"c \left(r_2 + \left(b - r_2\right) \sin{\left(\chi \right)} + \left(t_B - r_2\right) \cos{\left(\chi \right)} - s\right)",
    r"<c> \times \left(<r2> + \left(<b> - <r2>\right) \times \sin{\left(<chi> \right)} + \left(<tB> - <r2>\right) \times \cos{\left(<chi> \right)} - <s>\right)",
    c=(
        "b chi r2 s tB x_k", lambda b, chi, r2, s, tB, x_k: x_k/(r2 - s + (b - r2)*sin(chi) + (-r2 + tB)*cos(chi)),
        r"\frac{x_k}{r_2 + \left(b - r_2\right) \sin{\left(\chi \right)} + \left(t_B - r_2\right) \cos{\left(\chi \right)} - s}", r"\frac{<x_k>}{<r2> + \left(<b> - <r2>\right) \times \sin{\left(<chi> \right)} + \left(<tB> - <r2>\right) \times \cos{\left(<chi> \right)} - <s>}",
    ),
    s=(
        "b c chi r2 tB x_k", lambda b, c, chi, r2, tB, x_k: r2 + (b - r2)*sin(chi) + (-r2 + tB)*cos(chi) - x_k/c,
        r"r_2 + \left(b - r_2\right) \sin{\left(\chi \right)} + \left(t_B - r_2\right) \cos{\left(\chi \right)} - \frac{x_k}{c}", r"<r2> + \left(<b> - <r2>\right) \times \sin{\left(<chi> \right)} + \left(<tB> - <r2>\right) \times \cos{\left(<chi> \right)} - \frac{<x_k>}{<c>}",
    ),
)
roll_error = ready(
    "line on the other leg, stock rolled at the saw", "e_B", "c psi", "derived from the drawing; checked against a solid",
    lambda c, psi: atan(c*sin(psi)),
    r"\arctan{\left(c \sin{\left(\psi \right)} \right)}",
    r"\arctan{\left(<c> \times \sin{\left(<psi> \right)} \right)}",
    psi=(
        "c e_B", lambda c, e_B: asin(tan(e_B)/c),
        r"\arcsin{\left(\frac{\tan{\left(\varepsilon_B \right)}}{c} \right)}", r"\arcsin{\left(\frac{\tan{\left(<e_B> \right)}}{<c>} \right)}",
    ),
    c=(
        "psi e_B", lambda psi, e_B: tan(e_B)/sin(psi),
        r"\frac{\tan{\left(\varepsilon_B \right)}}{\sin{\left(\psi \right)}}", r"\frac{\tan{\left(<e_B> \right)}}{\sin{\left(<psi> \right)}}",
    ),
)
roll_slope = ready(
    "slope of a taper sawn in rolled stock", "c_r", "c psi", "derived from the drawing; checked against a solid",
    lambda c, psi: c*cos(psi),
    r"c \cos{\left(\psi \right)}",
    r"<c> \times \cos{\left(<psi> \right)}",
    c=(
        "psi c_r", lambda psi, c_r: c_r/cos(psi),
        r"\frac{c_r}{\cos{\left(\psi \right)}}", r"\frac{<c_r>}{\cos{\left(<psi> \right)}}",
    ),
)
roll_mark = ready(
    "vertex-projection mark, stock rolled at the saw", "x_v", "c psi tA tB", "derived from the drawing; checked against a solid",
    lambda c, psi, tA, tB: c*(-tA*sin(psi) + tB*cos(psi)),
    r"c \left(t_B \cos{\left(\psi \right)} - t_A \sin{\left(\psi \right)}\right)",
    r"<c> \times \left(<tB> \times \cos{\left(<psi> \right)} - <tA> \times \sin{\left(<psi> \right)}\right)",
    c=(
        "psi tA tB x_v", lambda psi, tA, tB, x_v: x_v/(-tA*sin(psi) + tB*cos(psi)),
        r"\frac{x_v}{t_B \cos{\left(\psi \right)} - t_A \sin{\left(\psi \right)}}", r"\frac{<x_v>}{<tB> \times \cos{\left(<psi> \right)} - <tA> \times \sin{\left(<psi> \right)}}",
    ),
    tB=(
        "c psi tA x_v", lambda c, psi, tA, x_v: (tA*sin(psi) + x_v/c)/cos(psi),
        r"\frac{t_A \sin{\left(\psi \right)} + \frac{x_v}{c}}{\cos{\left(\psi \right)}}", r"\frac{<tA> \times \sin{\left(<psi> \right)} + \frac{<x_v>}{<c>}}{\cos{\left(<psi> \right)}}",
    ),
    tA=(
        "c psi tB x_v", lambda c, psi, tB, x_v: (tB*cos(psi) - x_v/c)/sin(psi),
        r"\frac{t_B \cos{\left(\psi \right)} - \frac{x_v}{c}}{\sin{\left(\psi \right)}}", r"\frac{<tB> \times \cos{\left(<psi> \right)} - \frac{<x_v>}{<c>}}{\sin{\left(<psi> \right)}}",
    ),
)
twist_roll = ready(
    "roll of a twisted stick between two places", "psi", "omega x", "definition of twist",
    lambda omega, x: (Fraction(1, 12))*omega*x,
    r"\frac{\omega x}{12}",
    r"\frac{<omega> \times <x>}{12}",
    omega=(
        "x psi", lambda x, psi: 12*psi/x,
        r"\frac{12 \psi}{x}", r"\frac{12 \times <psi>}{<x>}",
    ),
    x=(
        "omega psi", lambda omega, psi: 12*psi/omega,
        r"\frac{12 \psi}{\omega}", r"\frac{12 \times <psi>}{<omega>}",
    ),
)
twist_rise = ready(
    "how far a twisted leg's toe stands off a flat table", "z_w", "W omega x", "derived: the heel lies on the table, the leg turns about it",
    lambda W, omega, x: W*sin((Fraction(1, 12))*omega*x),
    r"W \sin{\left(\frac{\omega x}{12} \right)}",
    r"<W> \times \sin{\left(\frac{<omega> \times <x>}{12} \right)}",
    omega=(
        "W x z_w", lambda W, x, z_w: 12*asin(z_w/W)/x,
        r"\frac{12 \arcsin{\left(\frac{z_w}{W} \right)}}{x}", r"\frac{12 \times \arcsin{\left(\frac{<z_w>}{<W>} \right)}}{<x>}",
    ),
    x=(
        "W omega z_w", lambda W, omega, z_w: 12*asin(z_w/W)/omega,
        r"\frac{12 \arcsin{\left(\frac{z_w}{W} \right)}}{\omega}", r"\frac{12 \times \arcsin{\left(\frac{<z_w>}{<W>} \right)}}{<omega>}",
    ),
    W=(
        "omega x z_w", lambda omega, x, z_w: z_w/sin((Fraction(1, 12))*omega*x),
        r"\frac{z_w}{\sin{\left(\frac{\omega x}{12} \right)}}", r"\frac{<z_w>}{\sin{\left(\frac{<omega> \times <x>}{12} \right)}}",
    ),
)
bevelled_toe = ready(
    "how much less of a leg the inner face shows, toe bevelled or round", "w_k", "kappa r2 tA", "derived: the edge slopes over the thickness, and the arc touches it and the inner face",
    lambda kappa, r2, tA: r2/tan((Fraction(1, 2))*kappa + (Fraction(1, 4))*pi) + tA*tan(kappa),
    r"r_2 \cot{\left(\frac{\kappa}{2} + \frac{\pi}{4} \right)} + t_A \tan{\left(\kappa \right)}",
    r"<r2> \times \cot{\left(\frac{<kappa>}{2} + \frac{\pi}{4} \right)} + <tA> \times \tan{\left(<kappa> \right)}",
    tA=(
        "kappa r2 w_k", lambda kappa, r2, w_k: (-r2/tan((Fraction(1, 2))*kappa + (Fraction(1, 4))*pi) + w_k)/tan(kappa),
        r"\frac{w_k - r_2 \cot{\left(\frac{\kappa}{2} + \frac{\pi}{4} \right)}}{\tan{\left(\kappa \right)}}", r"\frac{<w_k> - <r2> \times \cot{\left(\frac{<kappa>}{2} + \frac{\pi}{4} \right)}}{\tan{\left(<kappa> \right)}}",
    ),
    r2=(
        "kappa tA w_k", lambda kappa, tA, w_k: (-tA*tan(kappa) + w_k)*tan((Fraction(1, 2))*kappa + (Fraction(1, 4))*pi),
        r"\frac{w_k - t_A \tan{\left(\kappa \right)}}{\cot{\left(\frac{\kappa}{2} + \frac{\pi}{4} \right)}}", r"\frac{<w_k> - <tA> \times \tan{\left(<kappa> \right)}}{\cot{\left(\frac{<kappa>}{2} + \frac{\pi}{4} \right)}}",
    ),
)
tilt_error = ready(
    "inside edge minus outside edge of a tilted cut", "n_t", "t tau", "derived from the drawing; checked against a solid",
    lambda t, tau: t*tan(tau),
    r"t \tan{\left(\tau \right)}",
    r"<t> \times \tan{\left(<tau> \right)}",
    t=(
        "tau n_t", lambda tau, n_t: n_t/tan(tau),
        r"\frac{n_t}{\tan{\left(\tau \right)}}", r"\frac{<n_t>}{\tan{\left(<tau> \right)}}",
    ),
    tau=(
        "t n_t", lambda t, n_t: atan(n_t/t),
        r"\arctan{\left(\frac{n_t}{t} \right)}", r"\arctan{\left(\frac{<n_t>}{<t>} \right)}",
    ),
)
left_of_stick = ready(
    "what is left of a usable length", "r_l", "E_l S_b k n_c", "derived: each cut turns a kerf to dust",
    lambda E_l, S_b, k, n_c: E_l - S_b - k*n_c,
    r"E - S - k n_c",
    r"<E_l> - <S_b> - <k> \times <n_c>",
    E_l=(
        "S_b k n_c r_l", lambda S_b, k, n_c, r_l: S_b + k*n_c + r_l,
        r"S + k n_c + R", r"<S_b> + <k> \times <n_c> + <r_l>",
    ),
    S_b=(
        "E_l k n_c r_l", lambda E_l, k, n_c, r_l: E_l - k*n_c - r_l,
        r"E - k n_c - R", r"<E_l> - <k> \times <n_c> - <r_l>",
    ),
    n_c=(
        "E_l S_b k r_l", lambda E_l, S_b, k, r_l: (E_l - S_b - r_l)/k,
        r"\frac{E - S - R}{k}", r"\frac{<E_l> - <S_b> - <r_l>}{<k>}",
    ),
    k=(
        "E_l S_b n_c r_l", lambda E_l, S_b, n_c, r_l: (E_l - S_b - r_l)/n_c,
        r"\frac{E - S - R}{n_c}", r"\frac{<E_l> - <S_b> - <r_l>}{<n_c>}",
    ),
)
slope_from_run = ready(
    "slope from the run", "c", "W X s", "derived from the drawing; checked against a solid",
    lambda W, X, s: X/(W - s),
    r"\frac{X}{W - s}",
    r"\frac{<X>}{<W> - <s>}",
    X=(
        "W s c", lambda W, s, c: c*(W - s),
        r"c \left(W - s\right)", r"<c> \times \left(<W> - <s>\right)",
    ),
    W=(
        "X s c", lambda X, s, c: X/c + s,
        r"\frac{X}{c} + s", r"\frac{<X>}{<c>} + <s>",
    ),
    s=(
        "W X c", lambda W, X, c: W - X/c,
        r"W - \frac{X}{c}", r"<W> - \frac{<X>}{<c>}",
    ),
)
slope_from_angle = ready(
    "slope from the angle", "c", "theta", "derived from the drawing; checked against a solid",
    lambda theta: 1/tan(theta),
    r"\cot{\left(\theta \right)}",
    r"\cot{\left(<theta> \right)}",
    theta=(
        "c", lambda c: atan(1/c),
        r"\arctan{\left(\frac{1}{c} \right)}", r"\arctan{\left(\frac{1}{<c>} \right)}",
    ),
)
angle_from_slope = ready(
    "angle from the slope", "theta", "c", "derived from the drawing; checked against a solid",
    lambda c: atan(1/c),
    r"\arctan{\left(\frac{1}{c} \right)}",
    r"\arctan{\left(\frac{1}{<c>} \right)}",
    c=(
        "theta", lambda theta: 1/tan(theta),
        r"\cot{\left(\theta \right)}", r"\cot{\left(<theta> \right)}",
    ),
)
run_from_slope = ready(
    "run from the slope", "X", "W c s", "derived from the drawing; checked against a solid",
    lambda W, c, s: c*(W - s),
    r"c \left(W - s\right)",
    r"<c> \times \left(<W> - <s>\right)",
    c=(
        "W s X", lambda W, s, X: X/(W - s),
        r"\frac{X}{W - s}", r"\frac{<X>}{<W> - <s>}",
    ),
    W=(
        "c s X", lambda c, s, X: X/c + s,
        r"\frac{X}{c} + s", r"\frac{<X>}{<c>} + <s>",
    ),
    s=(
        "W c X", lambda W, c, X: W - X/c,
        r"W - \frac{X}{c}", r"<W> - \frac{<X>}{<c>}",
    ),
)
angle_from_run = ready(
    "angle from run and width left", "theta", "W X s", "derived from the drawing; checked against a solid",
    lambda W, X, s: atan((W - s)/X),
    r"\arctan{\left(\frac{W - s}{X} \right)}",
    r"\arctan{\left(\frac{<W> - <s>}{<X>} \right)}",
    X=(
        "W s theta", lambda W, s, theta: (W - s)/tan(theta),
        r"\left(W - s\right) \cot{\left(\theta \right)}", r"\left(<W> - <s>\right) \times \cot{\left(<theta> \right)}",
    ),
    W=(
        "X s theta", lambda X, s, theta: X*tan(theta) + s,
        r"X \tan{\left(\theta \right)} + s", r"<X> \times \tan{\left(<theta> \right)} + <s>",
    ),
    s=(
        "W X theta", lambda W, X, theta: W - X*tan(theta),
        r"W - X \tan{\left(\theta \right)}", r"<W> - <X> \times \tan{\left(<theta> \right)}",
    ),
)
protractor_from_square = ready(
    "protractor reading from square", "theta_q", "theta", "definition",
    lambda theta: -theta + (Fraction(1, 2))*pi,
    r"\frac{\pi}{2} - \theta",
    r"\frac{\pi}{2} - <theta>",
    theta=(
        "theta_q", lambda theta_q: -theta_q + (Fraction(1, 2))*pi,
        r"\frac{\pi}{2} - \theta_q", r"\frac{\pi}{2} - <theta_q>",
    ),
)
taper_per_foot = ready(
    "taper per foot, one side", "T", "c", "definition; tabulated in machinists' handbooks",
    lambda c: 12/c,
    r"\frac{12}{c}",
    r"\frac{12}{<c>}",
    c=(
        "T", lambda T: 12/T,
        r"\frac{12}{T}", r"\frac{12}{<T>}",
    ),
)
sine_bar = ready(
    "sine-bar height", "H", "B theta", "TC 9-524 appendix C",
    lambda B, theta: B*sin(theta),
    r"B \sin{\left(\theta \right)}",
    r"<B> \times \sin{\left(<theta> \right)}",
    theta=(
        "B H", lambda B, H: asin(H/B),
        r"\arcsin{\left(\frac{H}{B} \right)}", r"\arcsin{\left(\frac{<H>}{<B>} \right)}",
    ),
    B=(
        "theta H", lambda theta, H: H/sin(theta),
        r"\frac{H}{\sin{\left(\theta \right)}}", r"\frac{<H>}{\sin{\left(<theta> \right)}}",
    ),
)
taper_mark = ready(
    "mark of the taper line at a height", "x", "c s y", "derived from the drawing; checked against a solid",
    lambda c, s, y: c*(-s + y),
    r"c \left(y - s\right)",
    r"<c> \times \left(<y> - <s>\right)",
    y=(
        "c s x", lambda c, s, x: s + x/c,
        r"s + \frac{x}{c}", r"<s> + \frac{<x>}{<c>}",
    ),
    s=(
        "c y x", lambda c, y, x: y - x/c,
        r"y - \frac{x}{c}", r"<y> - \frac{<x>}{<c>}",
    ),
    c=(
        "s y x", lambda s, y, x: x/(-s + y),
        r"\frac{x}{y - s}", r"\frac{<x>}{<y> - <s>}",
    ),
)
vertex_projection = ready(
    "vertex-projection mark", "x_v", "c s t", "derived from the drawing; checked against a solid",
    lambda c, s, t: c*(-s + t),
    r"c \left(t - s\right)",
    r"<c> \times \left(<t> - <s>\right)",
    t=(
        "c s x_v", lambda c, s, x_v: s + x_v/c,
        r"s + \frac{x_v}{c}", r"<s> + \frac{<x_v>}{<c>}",
    ),
    s=(
        "c t x_v", lambda c, t, x_v: t - x_v/c,
        r"t - \frac{x_v}{c}", r"<t> - \frac{<x_v>}{<c>}",
    ),
    c=(
        "s t x_v", lambda s, t, x_v: x_v/(-s + t),
        r"\frac{x_v}{t - s}", r"\frac{<x_v>}{<t> - <s>}",
    ),
)
vertex_projection_from_run = ready(
    "vertex-projection mark from the run", "x_v", "W X s t", "derived from the drawing; checked against a solid",
    lambda W, X, s, t: X*(-s + t)/(W - s),
    r"\frac{X \left(t - s\right)}{W - s}",
    r"\frac{<X> \times \left(<t> - <s>\right)}{<W> - <s>}",
    X=(
        "W s t x_v", lambda W, s, t, x_v: x_v*(W - s)/(-s + t),
        r"\frac{x_v \left(W - s\right)}{t - s}", r"\frac{<x_v> \times \left(<W> - <s>\right)}{<t> - <s>}",
    ),
    t=(
        "W X s x_v", lambda W, X, s, x_v: s + x_v*(W - s)/X,
        r"s + \frac{x_v \left(W - s\right)}{X}", r"<s> + \frac{<x_v> \times \left(<W> - <s>\right)}{<X>}",
    ),
)
first_flat_mark = ready(
    "first mark on the inner flat", "x_f", "c r s t", "derived from the drawing; checked against a solid",
    lambda c, r, s, t: c*(r - s + t),
    r"c \left(r + t - s\right)",
    r"<c> \times \left(<r> + <t> - <s>\right)",
    t=(
        "c r s x_f", lambda c, r, s, x_f: -r + s + x_f/c,
        r"s + \frac{x_f}{c} - r", r"<s> + \frac{<x_f>}{<c>} - <r>",
    ),
    r=(
        "c s t x_f", lambda c, s, t, x_f: s - t + x_f/c,
        r"s + \frac{x_f}{c} - t", r"<s> + \frac{<x_f>}{<c>} - <t>",
    ),
    s=(
        "c r t x_f", lambda c, r, t, x_f: r + t - x_f/c,
        r"r + t - \frac{x_f}{c}", r"<r> + <t> - \frac{<x_f>}{<c>}",
    ),
    c=(
        "r s t x_f", lambda r, s, t, x_f: x_f/(r - s + t),
        r"\frac{x_f}{r + t - s}", r"\frac{<x_f>}{<r> + <t> - <s>}",
    ),
)
last_flat_mark = ready(
    "last mark on the inner flat", "x_t", "W c r2 s", "derived from the drawing; checked against a solid",
    lambda W, c, r2, s: c*(W - r2 - s),
    r"c \left(W - r_2 - s\right)",
    r"<c> \times \left(<W> - <r2> - <s>\right)",
    W=(
        "c r2 s x_t", lambda c, r2, s, x_t: r2 + s + x_t/c,
        r"r_2 + s + \frac{x_t}{c}", r"<r2> + <s> + \frac{<x_t>}{<c>}",
    ),
    r2=(
        "W c s x_t", lambda W, c, s, x_t: W - s - x_t/c,
        r"W - s - \frac{x_t}{c}", r"<W> - <s> - \frac{<x_t>}{<c>}",
    ),
    c=(
        "W r2 s x_t", lambda W, r2, s, x_t: x_t/(W - r2 - s),
        r"\frac{x_t}{W - r_2 - s}", r"\frac{<x_t>}{<W> - <r2> - <s>}",
    ),
)
fillet_mark = ready(
    "mark in the unrolled fillet", "x_u", "c r s t u", "derived from the drawing; checked against a solid",
    lambda c, r, s, t, u: c*(-r*sin(u/r) + r - s + t),
    r"c \left(r + t - r \sin{\left(\frac{u}{r} \right)} - s\right)",
    r"<c> \times \left(<r> + <t> - <r> \times \sin{\left(\frac{<u>}{<r>} \right)} - <s>\right)",
    c=(
        "r s t u x_u", lambda r, s, t, u, x_u: x_u/(-r*sin(u/r) + r - s + t),
        r"\frac{x_u}{r + t - r \sin{\left(\frac{u}{r} \right)} - s}", r"\frac{<x_u>}{<r> + <t> - <r> \times \sin{\left(\frac{<u>}{<r>} \right)} - <s>}",
    ),
)
fillet_place = ready(
    "place in the unrolled fillet at a height", "u", "r t y", "derived from the drawing; checked against a solid",
    lambda r, t, y: r*asin((r + t - y)/r),
    r"r \arcsin{\left(\frac{r + t - y}{r} \right)}",
    r"<r> \times \arcsin{\left(\frac{<r> + <t> - <y>}{<r>} \right)}",
    y=(
        "r t u", lambda r, t, u: -r*sin(u/r) + r + t,
        r"r + t - r \sin{\left(\frac{u}{r} \right)}", r"<r> + <t> - <r> \times \sin{\left(\frac{<u>}{<r>} \right)}",
    ),
)
fillet_width = ready(
    "width of the unrolled fillet", "u_B", "r", "a quarter of a circle",
    lambda r: (Fraction(1, 2))*pi*r,
    r"\frac{\pi r}{2}",
    r"\frac{\pi \times <r>}{2}",
    r=(
        "u_B", lambda u_B: 2*u_B/pi,
        r"\frac{2 u_B}{\pi}", r"\frac{2 \times <u_B>}{\pi}",
    ),
)
fillet_length = ready(
    "length of the cut edge round the fillet", "l_f", "r theta", "arc length of a plane cut through a cylinder (an ellipse)",
    lambda r, theta: r*elliptic_e(cos(theta)**2)/sin(theta),
    r"\frac{r E\left(\cos^{2}{\left(\theta \right)}\right)}{\sin{\left(\theta \right)}}",
    r"\frac{<r> \times E\left(\cos^{2}{\left(<theta> \right)}\right)}{\sin{\left(<theta> \right)}}",
    r=(
        "theta l_f", lambda theta, l_f: l_f*sin(theta)/elliptic_e(cos(theta)**2),
        r"\frac{\ell_f \sin{\left(\theta \right)}}{E\left(\cos^{2}{\left(\theta \right)}\right)}", r"\frac{<l_f> \times \sin{\left(<theta> \right)}}{E\left(\cos^{2}{\left(<theta> \right)}\right)}",
    ),
)
straight_wrap_error = ready(
    "error of a straight line carried over the unrolled fillet", "x_e", "c r", "derived from the drawing; checked against a solid",
    lambda c, r: c*r*(-1 + (Fraction(1, 2))*pi),
    r"c r \left(\frac{\pi}{2} - 1\right)",
    r"<c> \times <r> \times \left(\frac{\pi}{2} - 1\right)",
    r=(
        "c x_e", lambda c, x_e: x_e/(c*(-1 + (Fraction(1, 2))*pi)),
        r"\frac{x_e}{c \left(\frac{\pi}{2} - 1\right)}", r"\frac{<x_e>}{<c> \times \left(\frac{\pi}{2} - 1\right)}",
    ),
    c=(
        "r x_e", lambda r, x_e: x_e/(r*(-1 + (Fraction(1, 2))*pi)),
        r"\frac{x_e}{r \left(\frac{\pi}{2} - 1\right)}", r"\frac{<x_e>}{<r> \times \left(\frac{\pi}{2} - 1\right)}",
    ),
)
heel_mark = ready(
    "mark round the unrolled heel", "x_h", "Rh c s v", "derived from the drawing; checked against a solid",
    lambda Rh, c, s, v: c*(-Rh*cos((Fraction(1, 4))*pi + v/Rh) + Rh - s),
    r"c \left(R_h - R_h \cos{\left(\frac{\pi}{4} + \frac{v}{R_h} \right)} - s\right)",
    r"<c> \times \left(<Rh> - <Rh> \times \cos{\left(\frac{\pi}{4} + \frac{<v>}{<Rh>} \right)} - <s>\right)",
    c=(
        "Rh s v x_h", lambda Rh, s, v, x_h: x_h/(-Rh*cos((Fraction(1, 4))*pi + v/Rh) + Rh - s),
        r"\frac{x_h}{R_h - R_h \cos{\left(\frac{\pi}{4} + \frac{v}{R_h} \right)} - s}", r"\frac{<x_h>}{<Rh> - <Rh> \times \cos{\left(\frac{\pi}{4} + \frac{<v>}{<Rh>} \right)} - <s>}",
    ),
)
edge_length = ready(
    "length of the tapered edge", "l_e", "W s theta", "derived from the drawing; checked against a solid",
    lambda W, s, theta: (W - s)/sin(theta),
    r"\frac{W - s}{\sin{\left(\theta \right)}}",
    r"\frac{<W> - <s>}{\sin{\left(<theta> \right)}}",
    W=(
        "s theta l_e", lambda s, theta, l_e: l_e*sin(theta) + s,
        r"\ell_e \sin{\left(\theta \right)} + s", r"<l_e> \times \sin{\left(<theta> \right)} + <s>",
    ),
    s=(
        "W theta l_e", lambda W, theta, l_e: W - l_e*sin(theta),
        r"W - \ell_e \sin{\left(\theta \right)}", r"<W> - <l_e> \times \sin{\left(<theta> \right)}",
    ),
)
bevel_face = ready(
    "width of the bevel on the other leg's end", "b_f", "s t theta", "derived from the drawing; checked against a solid",
    lambda s, t, theta: (-s + t)/sin(theta),
    r"\frac{t - s}{\sin{\left(\theta \right)}}",
    r"\frac{<t> - <s>}{\sin{\left(<theta> \right)}}",
    t=(
        "s theta b_f", lambda s, theta, b_f: b_f*sin(theta) + s,
        r"b_f \sin{\left(\theta \right)} + s", r"<b_f> \times \sin{\left(<theta> \right)} + <s>",
    ),
    s=(
        "t theta b_f", lambda t, theta, b_f: -b_f*sin(theta) + t,
        r"t - b_f \sin{\left(\theta \right)}", r"<t> - <b_f> \times \sin{\left(<theta> \right)}",
    ),
)
blunting = ready(
    "length lost by blunting the feather edge", "x_b", "c h", "derived from the drawing; checked against a solid",
    lambda c, h: c*h,
    r"c h",
    r"<c> \times <h>",
    h=(
        "c x_b", lambda c, x_b: x_b/c,
        r"\frac{x_b}{c}", r"\frac{<x_b>}{<c>}",
    ),
    c=(
        "h x_b", lambda h, x_b: x_b/h,
        r"\frac{x_b}{h}", r"\frac{<x_b>}{<h>}",
    ),
)
cut_face_area = ready(
    "area of the cut face", "A_c", "A_s theta", "derived from the drawing; checked against a solid",
    lambda A_s, theta: A_s/sin(theta),
    r"\frac{A_s}{\sin{\left(\theta \right)}}",
    r"\frac{<A_s>}{\sin{\left(<theta> \right)}}",
    A_s=(
        "theta A_c", lambda theta, A_c: A_c*sin(theta),
        r"A_c \sin{\left(\theta \right)}", r"<A_c> \times \sin{\left(<theta> \right)}",
    ),
)
tapered_volume = ready(
    "volume of a part with one taper", "V", "A L Q c", "derived from the drawing; checked against a solid",
    lambda A, L, Q, c: A*L - Q*c,
    r"A L - Q c",
    r"<A> \times <L> - <Q> \times <c>",
    L=(
        "A Q c V", lambda A, Q, c, V: (Q*c + V)/A,
        r"\frac{Q c + V}{A}", r"\frac{<Q> \times <c> + <V>}{<A>}",
    ),
    Q=(
        "A L c V", lambda A, L, c, V: (A*L - V)/c,
        r"\frac{A L - V}{c}", r"\frac{<A> \times <L> - <V>}{<c>}",
    ),
)
tapers_cross = ready(
    "where the tapers of both ends meet", "x_p", "L c_1 c_2 s_1 s_2", "derived from the drawing; checked against a solid",
    lambda L, c_1, c_2, s_1, s_2: c_1*(L + c_2*(-s_1 + s_2))/(c_1 + c_2),
    r"\frac{c_1 \left(L + c_2 \left(s_2 - s_1\right)\right)}{c_1 + c_2}",
    r"\frac{<c_1> \times \left(<L> + <c_2> \times \left(<s_2> - <s_1>\right)\right)}{<c_1> + <c_2>}",
    L=(
        "c_1 c_2 s_1 s_2 x_p", lambda c_1, c_2, s_1, s_2, x_p: -c_2*(-s_1 + s_2) + x_p*(c_1 + c_2)/c_1,
        r"\frac{x_p \left(c_1 + c_2\right)}{c_1} - c_2 \left(s_2 - s_1\right)", r"\frac{<x_p> \times \left(<c_1> + <c_2>\right)}{<c_1>} - <c_2> \times \left(<s_2> - <s_1>\right)",
    ),
)
taper_clearance = ready(
    "distance from a point to the taper line", "n", "s theta x y", "derived from the drawing; checked against a solid",
    lambda s, theta, x, y: x*sin(theta) + (s - y)*cos(theta),
    r"x \sin{\left(\theta \right)} + \left(s - y\right) \cos{\left(\theta \right)}",
    r"<x> \times \sin{\left(<theta> \right)} + \left(<s> - <y>\right) \times \cos{\left(<theta> \right)}",
    x=(
        "s theta y n", lambda s, theta, y, n: (n + (-s + y)*cos(theta))/sin(theta),
        r"\frac{n + \left(y - s\right) \cos{\left(\theta \right)}}{\sin{\left(\theta \right)}}", r"\frac{<n> + \left(<y> - <s>\right) \times \cos{\left(<theta> \right)}}{\sin{\left(<theta> \right)}}",
    ),
    y=(
        "s theta x n", lambda s, theta, x, n: s + (-n + x*sin(theta))/cos(theta),
        r"s + \frac{x \sin{\left(\theta \right)} - n}{\cos{\left(\theta \right)}}", r"<s> + \frac{<x> \times \sin{\left(<theta> \right)} - <n>}{\cos{\left(<theta> \right)}}",
    ),
)
hacksaw_strip = ready(
    "what a rough cut takes between two blanks, besides their sanding allowances", "k_r", "e_h e_s k", "definition of the hacksaw's allowance",
    lambda e_h, e_s, k: 2*e_h - 2*e_s + k,
    r"2 e_h + k - 2 e_s",
    r"2 \times <e_h> + <k> - 2 \times <e_s>",
    e_h=(
        "e_s k k_r", lambda e_s, k, k_r: e_s - Fraction(1, 2)*k + (Fraction(1, 2))*k_r,
        r"e_s + \frac{k_r}{2} - \frac{k}{2}", r"<e_s> + \frac{<k_r>}{2} - \frac{<k>}{2}",
    ),
    e_s=(
        "e_h k k_r", lambda e_h, k, k_r: e_h + (Fraction(1, 2))*k - Fraction(1, 2)*k_r,
        r"e_h + \frac{k}{2} - \frac{k_r}{2}", r"<e_h> + \frac{<k>}{2} - \frac{<k_r>}{2}",
    ),
    k=(
        "e_h e_s k_r", lambda e_h, e_s, k_r: -2*e_h + 2*e_s + k_r,
        r"2 e_s + k_r - 2 e_h", r"2 \times <e_s> + <k_r> - 2 \times <e_h>",
    ),
)
rough_blank = ready(
    "length of a blank that a hacksaw parts off", "L_b", "L e_h e_s", "definition of both allowances",
    lambda L, e_h, e_s: L + e_h + e_s,
    r"L + e_h + e_s",
    r"<L> + <e_h> + <e_s>",
    L=(
        "e_h e_s L_b", lambda e_h, e_s, L_b: L_b - e_h - e_s,
        r"L_b - e_h - e_s", r"<L_b> - <e_h> - <e_s>",
    ),
    e_s=(
        "L e_h L_b", lambda L, e_h, L_b: -L + L_b - e_h,
        r"L_b - L - e_h", r"<L_b> - <L> - <e_h>",
    ),
    e_h=(
        "L e_s L_b", lambda L, e_s, L_b: -L + L_b - e_s,
        r"L_b - L - e_s", r"<L_b> - <L> - <e_s>",
    ),
)

ALL = (stray, least_allowance, gap_deviation, gap_covariance, limits_deviation, growth, heating, plane_slope, miter_flat, tilt_flat, miter_heel_up, tilt_heel_up, slope_a_heel_up, slope_b_heel_up, line_angle, least_teeth, most_teeth, edge_in_diameters, row_start, row_band, least_angle, greatest_angle, run_at_angle, run_before_bevel, behind_bevel, rivet_length, hours_allowed, corner_loss, tangent_length, arc_length, area_lost, largest_radius, nose_loss, largest_nose, stepped_error, stepped_scatter, shift_along, shift_across, saw_line_projection, blade_middle, blade_far_side, blank_length, batch_mark, kerf_of_blade, error_along, error_across, heel_up_height, heel_up_slope, heel_up_metal, hanging_reach, block_height, block_top, fillet_area, fillet_centroid, section_area, section_outline, largest_heel, smallest_moment, smallest_gyration, end_slope, light_gap, out_of_square, flip_gap, inside_corner, angularity_error, open_tangent, inside_gap, closed_nick, roll_error, roll_slope, roll_mark, twist_roll, twist_rise, bevelled_toe, tilt_error, left_of_stick, slope_from_run, slope_from_angle, angle_from_slope, run_from_slope, angle_from_run, protractor_from_square, taper_per_foot, sine_bar, taper_mark, vertex_projection, vertex_projection_from_run, first_flat_mark, last_flat_mark, fillet_mark, fillet_place, fillet_width, fillet_length, straight_wrap_error, heel_mark, edge_length, bevel_face, blunting, cut_face_area, tapered_volume, tapers_cross, taper_clearance, hacksaw_strip, rough_blank)

__all__ = ["ALL", "QUANTITIES"]
