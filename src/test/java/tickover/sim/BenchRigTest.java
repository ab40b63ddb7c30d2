package tickover.sim;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.Set;
import org.junit.jupiter.api.Test;
import tickover.drive.Ring;

class BenchRigTest {
    @Test
    void theSameSeedGivesTheSameBench() {
        SimulatedBench a = BenchRig.turn(5);
        SimulatedBench b = BenchRig.turn(5);
        assertEquals(a.truth(), b.truth());
        assertArrayEquals(a.record().accelMps2().get(0), b.record().accelMps2().get(0));
        assertArrayEquals(a.good().pulsesS(), b.good().pulsesS());
    }

    @Test
    void everyFaultEitherRingAndSoundPartsAreDrawn() {
        Set<FaultKind> kinds = EnumSet.noneOf(FaultKind.class);
        Set<Ring> rings = EnumSet.noneOf(Ring.class);
        for (long seed = 1; seed <= 40; seed++) {
            SimulatedBench bench = BenchRig.turn(seed);
            kinds.add(bench.truth().kind());
            rings.add(bench.turning());
            // Given speed and internals are off, but within what the bench says it stands.
            assertEquals(1, bench.record().statedRpm() / bench.record().meanRpm(), 0.02 + 1e-9);
        }
        assertTrue(kinds.size() >= 7, kinds.toString());
        assertEquals(2, rings.size());
    }

    @Test
    void pulsesCountTheTurns() {
        SimulatedBench.Take take = BenchRig.turn(8).record();
        double[] pulses = take.pulsesS();
        double seconds = pulses[pulses.length - 1] - pulses[0];
        double rpm = 60 * (pulses.length - 1) / seconds;
        // The speed swings by less than 1 % and slowly; the pulses cover all but a turn.
        assertEquals(take.meanRpm(), rpm, 0.01 * take.meanRpm());
    }
}
