package tickover.sim;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.Test;
import tickover.drive.Role;

class WorkshopTest {
    private static final double G_MPS2 = 9.80665;

    @Test
    void oneSeedGivesOneVisit() {
        SimulatedVisit a = Workshop.visit(Workshop.TUNING_SEEDS_FROM + 12);
        SimulatedVisit b = Workshop.visit(Workshop.TUNING_SEEDS_FROM + 12);
        assertEquals(a.id(), b.id());
        assertEquals(a.vehicle(), b.vehicle());
        assertEquals(a.truth(), b.truth());
        assertEquals(a.captures().size(), b.captures().size());
        for (int i = 0; i < a.captures().size(); i++) {
            SimulatedCapture ca = a.captures().get(i);
            SimulatedCapture cb = b.captures().get(i);
            assertEquals(ca.label(), cb.label());
            for (int c = 0; c < ca.channels(); c++) {
                assertArrayEquals(ca.accelMps2(c), cb.accelMps2(c), ca.label().file());
            }
        }
    }

    @Test
    void aWantedFaultIsGiven() {
        WorkshopCase wanted =
                WorkshopCase.any()
                        .withFault(FaultKind.BEARING_INNER_RING)
                        .withRole(Role.ALTERNATOR)
                        .withSpeed(SpeedRecord.Kind.KNOWN)
                        .withSeverity(0.5);
        SimulatedVisit visit = Workshop.visit(5, wanted);
        assertEquals(new Truth("alternator", FaultKind.BEARING_INNER_RING, 0.5), visit.truth());
        visit.captures().forEach(c -> assertEquals(SpeedRecord.Kind.KNOWN, c.speed().kind()));
    }

    @Test
    void refusesAFaultThatNoDriveCanHave() {
        WorkshopCase crank = WorkshopCase.any().withFault(FaultKind.CAGE).withRole(Role.CRANK);
        IllegalArgumentException e =
                assertThrows(IllegalArgumentException.class, () -> Workshop.visit(1, crank));
        assertTrue(e.getMessage().contains("no drive has both"), e.getMessage());
    }

    @Test
    void everyVisitHoldsTogether() {
        Set<String> ids = new HashSet<>();
        for (long seed = 20; seed < 26; seed++) {
            SimulatedVisit visit = Workshop.visit(seed);
            assertTrue(ids.add(visit.id()), "neighbouring seeds give one id");
            String at = "seed " + seed;
            assertTrue(visit.captures().size() >= 3, at);
            Set<String> files = new HashSet<>();
            for (SimulatedCapture c : visit.captures()) {
                assertTrue(files.add(c.label().file()), at);
                assertLooksLikeAnEngine(c, at + " " + c.label());
                assertFitsTheFormat(c, at + " " + c.label());
            }
            String component = visit.truth().component();
            boolean named =
                    visit.vehicle().pulley(component).isPresent()
                            || visit.vehicle().belts().stream()
                                    .anyMatch(b -> component.equals("belt:" + b.name()))
                            || component.matches("injector-[1-8]|valve-train|engine|none");
            assertTrue(named, at + " truth " + component);
        }
    }

    /** A running engine shakes a probe by more than its noise and less than anything breaks. */
    private static void assertLooksLikeAnEngine(SimulatedCapture c, String at) {
        for (int channel = 0; channel < c.channels(); channel++) {
            double[] x = c.accelMps2(channel);
            double mean = 0;
            for (double v : x) {
                assertTrue(Double.isFinite(v), at);
                mean += v / x.length;
            }
            double power = 0;
            for (double v : x) {
                power += (v - mean) * (v - mean) / x.length;
            }
            double rms = Math.sqrt(power);
            assertTrue(Math.abs(mean) < 1.1 * G_MPS2, at + " mean " + mean);
            assertTrue(rms > 0.05 && rms < 30, at + " rms " + rms);
        }
    }

    /** Samples are what the format can hold, so that writing them to a file loses nothing. */
    private static void assertFitsTheFormat(SimulatedCapture c, String at) {
        double unit = c.recorder().scaleMps2();
        for (double v : c.accelMps2(0)) {
            double x = v / unit;
            double held =
                    switch (c.recorder().format()) {
                        case PCM_16 -> onGrid(x, 1 << 15);
                        case PCM_24 -> onGrid(x, 1 << 23);
                        case FLOAT_32 -> (float) x;
                    };
            // The scale costs a rounding each way.
            assertEquals(held, x, 4 * Math.ulp(x), at);
        }
    }

    private static double onGrid(double x, int steps) {
        double code = Math.rint(x * steps);
        return Math.max(-steps, Math.min(steps - 1.0, code)) / steps;
    }
}
