package tickover.sim;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import tickover.drive.Condition;
import tickover.drive.Face;
import tickover.drive.Position;
import tickover.drive.Role;

class ShakersTest {
    private static final double SPEED_HZ = 13;
    private static final double RATE_HZ = 25600;

    /** Tones stand at their order of the part, slip included, with their amplitude. */
    @Test
    void aSlotToneStandsAtItsOrder() {
        Run run = Runs.at(SPEED_HZ, RATE_HZ, 6, Condition.UNLOADED);
        AngleTable table = new AngleTable();
        table.add(36, 0.8, 0.2);
        Shake shake = new Shake(run.count());
        double ratio = 2.5667 * (1 - 0.008);
        new Tones(table, 1, LoadGain.constant(Role.ALTERNATOR), 1.4)
                .shake(run, Runs.part(run, ratio), new Draw(1), shake);
        // The table's steps cost (2 pi 36 / 16384)² / 8 of amplitude, far below this.
        assertEquals(0.8, Runs.amplitude(shake.directMps2, run, 36 * ratio), 0.8e-3);
        assertTrue(Runs.amplitude(shake.directMps2, run, 36 * 2.5667) < 0.05, "not without slip");
    }

    /** An unplugged injector is silent; its neighbours are not. */
    @Test
    void anUnpluggedInjectorIsSilent() {
        Run run = Runs.at(SPEED_HZ, RATE_HZ, 2, Condition.UNLOADED.withInjectorOff(2));
        assertEquals(0, peak(injector(2), run), 0);
        assertTrue(peak(injector(3), run) > 1);
    }

    private static CyclePulses injector(int cylinder) {
        return new CyclePulses(
                cylinder, 0.5, 2, 3, 1, 0.001, 0.001, 0.4, CyclePulses.Trait.INJECTOR);
    }

    private static double peak(Shaker shaker, Run run) {
        Shake shake = new Shake(run.count());
        shaker.shake(run, Runs.part(run, 1), new Draw(1), shake);
        double most = 0;
        for (double v : shake.impactsMps2) {
            most = Math.max(most, Math.abs(v));
        }
        return most;
    }

    /** Once per cycle at one crank angle gives lines at every half order and at nothing else. */
    @Test
    void anInjectorGivesHalfOrders() {
        Run run = Runs.at(SPEED_HZ, RATE_HZ, 6, Condition.UNLOADED);
        Shake shake = new Shake(run.count());
        injector(1).shake(run, Runs.part(run, 1), new Draw(1), shake);
        double[] power = Runs.squared(shake.impactsMps2);
        double half = Runs.amplitude(power, run, 0.5);
        assertTrue(Runs.amplitude(power, run, 1.5) > 0.8 * half);
        assertTrue(Runs.amplitude(power, run, 0.75) < 0.1 * half);
    }

    /** A span swings at its own frequency at any engine speed. */
    @Test
    void aSpanToneStaysPutInHz() {
        for (double speedHz : new double[] {13, 23.7}) {
            Run run = Runs.at(speedHz, 3200, 20, Condition.UNLOADED);
            Shake shake = new Shake(run.count());
            new SpanTone(new Mode(97, 0.01, 1), 0.3, 2, LoadGain.constant(Role.IDLER))
                    .shake(run, Runs.part(run, 2), new Draw(5), shake);
            double near = bandAmplitude(shake.directMps2, run, 97);
            assertTrue(near > 4 * bandAmplitude(shake.directMps2, run, 87), "at " + speedHz);
            assertTrue(near > 4 * bandAmplitude(shake.directMps2, run, 107), "at " + speedHz);
        }
    }

    /** Root of the power within a hertz. */
    private static double bandAmplitude(double[] x, Run run, double hz) {
        double power = 0;
        for (double off = -1; off <= 1; off += 0.05) {
            double speedHz = run.motion().meanSpeedHzAt(1);
            double a = Runs.amplitude(x, run, (hz + off) / speedHz);
            power += a * a;
        }
        return Math.sqrt(power);
    }

    /** A knock hard every second turn gives half orders of the part. */
    @Test
    void aLoosePartGivesHalvesOfItsTurn() {
        Run run = Runs.at(SPEED_HZ, RATE_HZ, 8, Condition.UNLOADED);
        Shake shake = new Shake(run.count());
        double ratio = 1.37;
        new Knocks(5, 2, 0.2, 2, 0.1, LoadGain.constant(Role.ALTERNATOR))
                .shake(run, Runs.part(run, ratio), new Draw(1), shake);
        double[] power = Runs.squared(shake.impactsMps2);
        double half = Runs.amplitude(power, run, 0.5 * ratio);
        assertTrue(half > 5 * Runs.amplitude(power, run, 0.25 * ratio), "half order stands out");
        assertTrue(half > 5 * Runs.amplitude(power, run, 0.37 * ratio), "half order stands out");
    }

    /** A damaged place is felt coming and leaving, once per belt turn. */
    @Test
    void aBeltsDamageComesOncePerBeltTurn() {
        Run run = Runs.at(SPEED_HZ, RATE_HZ, 10, Condition.UNLOADED);
        double order = 0.2419;
        Shake shake = new Shake(run.count());
        new BeltHits("main", order, 0.3, 0.08, 4, 0, LoadGain.constant(Role.IDLER))
                .shake(run, Runs.part(run, 2), new Draw(1), shake);
        int strikes = 0;
        int quiet = 0;
        for (double v : shake.impactsMps2) {
            quiet++;
            if (Math.abs(v) > 1 && quiet > RATE_HZ / 100) {
                strikes++;
                quiet = 0;
            }
        }
        double turns = 10 * SPEED_HZ * order;
        assertEquals(2 * turns, strikes, 2, "coming and leaving over " + turns + " belt turns");
    }

    /** A clutch's load is felt by the pump, a pulley that always turns hardly notices. */
    @Test
    void loadsActOnTheirOwnPart() {
        LoadGain alternator = new LoadGain(Role.ALTERNATOR, 1, 0.6);
        assertEquals(1, alternator.of(Condition.UNLOADED), 1e-12);
        assertEquals(1.6, alternator.of(Condition.UNLOADED.withHeadlights(true)), 1e-12);
        assertEquals(1, alternator.of(Condition.UNLOADED.withSteering(true)), 1e-12);
        LoadGain pump = new LoadGain(Role.STEERING_PUMP, 1, 2);
        assertEquals(3, pump.of(Condition.UNLOADED.withSteering(true)), 1e-12);
        LoadGain guide = new LoadGain(Role.IDLER, 1, 1);
        double felt = guide.of(Condition.UNLOADED.withAircon(true));
        assertTrue(felt > 1.1 && felt < 1.6, "through belt tension: " + felt);
    }

    /** Open belt over two pulleys: 2 sqrt(d² - (R-r)²) + pi (R+r) + 2 (R-r) asin((R-r)/d). */
    @Test
    void beltLengthOverTwoPulleysIsTheClosedForm() {
        TruePulley big = pulley("crank", Role.CRANK, 160, 0, 0, Face.GROOVED);
        TruePulley small = pulley("alternator", Role.ALTERNATOR, 60, 0, 300, Face.GROOVED);
        BeltRun run = BeltRun.of(List.of(big, small)).orElseThrow();
        double d = 300;
        double difference = 50;
        double length =
                2 * Math.sqrt(d * d - difference * difference)
                        + Math.PI * 110
                        + 2 * difference * Math.asin(difference / d);
        assertEquals(length, run.lengthMm(), 1e-9);
        double wrap = (Math.PI + 2 * Math.asin(difference / d)) * 80 / length;
        assertEquals(wrap, run.wrapTurns(0), 1e-12);
    }

    @Test
    void refusesABeltThroughAPulley() {
        TruePulley crank = pulley("crank", Role.CRANK, 160, 0, 0, Face.GROOVED);
        TruePulley top = pulley("alternator", Role.ALTERNATOR, 60, 0, 300, Face.GROOVED);
        TruePulley inside = pulley("idler", Role.IDLER, 70, 0, 100, Face.GROOVED);
        assertTrue(BeltRun.of(List.of(crank, inside, top)).isEmpty());
    }

    private static TruePulley pulley(
            String name, Role role, double diameterMm, double xMm, double yMm, Face face) {
        return new TruePulley(
                name, role, diameterMm, face, new Position(xMm, yMm), List.of(), List.of());
    }
}
