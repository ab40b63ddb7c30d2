package tickover.dsp;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;

/** Against scipy 1.17.1: norm.sf, norm.isf, t.sf, t.isf, digamma, polygamma(1), gammaln. */
class DistributionsReferenceTest {
    /** Nine digits were printed. */
    private static final double PRINTED = 2e-9;

    private static void same(double expected, double actual) {
        assertEquals(1, actual / expected, PRINTED, expected + " is " + actual);
    }

    @Test
    void normalTails() {
        same(3.08537539e-01, Distributions.normalAbove(0.5));
        same(8.07566592e-02, Distributions.normalAbove(1.4));
        same(5.47992917e-02, Distributions.normalAbove(1.6));
        same(1.34989803e-03, Distributions.normalAbove(3));
        same(6.22096057e-16, Distributions.normalAbove(8));
        same(1.77648211e-33, Distributions.normalAbove(12));
        same(1 - 1.34989803e-03, Distributions.normalAbove(-3));
    }

    @Test
    void normalQuantiles() {
        double printed = 1e-8;
        assertEquals(0.52440051, Distributions.normalExceededWith(0.3), printed);
        assertEquals(1.95996398, Distributions.normalExceededWith(0.025), printed);
        assertEquals(4.75342431, Distributions.normalExceededWith(1e-6), printed);
        assertEquals(11.46402469, Distributions.normalExceededWith(1e-30), printed);
        assertEquals(-0.52440051, Distributions.normalExceededWith(0.7), printed);
    }

    @Test
    void studentTails() {
        same(0.02501138915998821, Distributions.studentAbove(2.776, 4));
        same(0.036288047774515914, Distributions.studentAbove(3, 2.5));
        same(0.8654140315863967, Distributions.studentAbove(-1.2, 7));
        same(0.0006225079003946681, Distributions.studentAbove(12, 3));
        same(2.3632275663940903e-07, Distributions.studentAbove(6, 40));
        same(1.34989803e-03, Distributions.studentAbove(3, Double.POSITIVE_INFINITY));
    }

    @Test
    void studentQuantiles() {
        same(2.77644511, Distributions.studentExceededWith(0.025, 4));
        same(7.17318222, Distributions.studentExceededWith(0.001, 4));
        same(6.9890696929238185, Distributions.studentExceededWith(1e-5, 11.3));
    }

    @Test
    void gammaFamily() {
        double printed = 1e-8;
        assertEquals(-3.50252422, Distributions.digamma(0.3), printed);
        assertEquals(-0.57721566, Distributions.digamma(1), printed);
        assertEquals(3.38443813, Distributions.digamma(30), printed);
        assertEquals(12.24536455, Distributions.trigamma(0.3), printed);
        assertEquals(1.64493407, Distributions.trigamma(1), printed);
        assertEquals(0.03389506, Distributions.trigamma(30), printed);
        assertEquals(1.09579799, Distributions.logGamma(0.3), printed);
        assertEquals(2.45373657, Distributions.logGamma(4.5), printed);
        assertEquals(71.25703897, Distributions.logGamma(30), printed);
    }

    @Test
    void scoreKeepsTheChance() {
        double roundOff = 1e-9;
        for (double t : new double[] {-4, -0.3, 0, 0.7, 9}) {
            double score = Distributions.normalScore(t, 5);
            assertEquals(
                    Distributions.studentAbove(t, 5), Distributions.normalAbove(score), roundOff);
        }
    }

    @Test
    void refusesChancesThatAreNone() {
        assertThrows(
                IllegalArgumentException.class, () -> Distributions.normalExceededWith(Double.NaN));
        assertThrows(
                IllegalArgumentException.class, () -> Distributions.studentExceededWith(0.6, 4));
        assertThrows(IllegalArgumentException.class, () -> Distributions.studentAbove(1, 0));
    }
}
