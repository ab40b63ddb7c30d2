package tickover.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import tickover.store.Visit;
import tickover.store.VisitFolder;
import tickover.store.WavEncoding;
import tickover.store.WavFile;

/** What is left of tones and knocks whose closed form is known. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class PartListeningTest {
    private static final double RATE_HZ = 12_800;
    private static final double LENGTH_S = 8;
    private static final double CRANK_HZ = 13.5;

    /** 150 over 76 and over 56 mm, the belt creeping by 0.4 and 0.6 %. */
    private static final double IDLER_TURNS = 150.0 / 76 * 0.996;

    private static final double ALTERNATOR_TURNS = 150.0 / 56 * 0.994;

    /** A 6203 whose outer ring turns: 8 balls of 6.747 on 28.5 mm, per turn of the idler. */
    private static final double IDLER_OUTER = 4 * (1 - 6.747 / 28.5);

    private static final double RING_HZ = 3400;

    @TempDir private static Path folder;
    private Visit visit;
    private double[] recorded;

    @BeforeAll
    void makesAVisit() throws IOException {
        recorded = new double[(int) (RATE_HZ * LENGTH_S)];
        Random random = new Random(3);
        for (int i = 0; i < recorded.length; i++) {
            recorded[i] = 0.05 * random.nextGaussian();
        }
        addTone(2, 3);
        addTone(4, 1);
        addTone(IDLER_TURNS, 0.5);
        addTone(3 * IDLER_TURNS, 0.2);
        addTone(ALTERNATOR_TURNS, 0.6);
        addTone(12 * ALTERNATOR_TURNS, 2);
        addKnocks(IDLER_OUTER * IDLER_TURNS, 3, 0.003);
        addKnocks(4.31 * ALTERNATOR_TURNS, 5, 0.003);
        WavFile.write(
                folder.resolve("c01.wav"),
                RATE_HZ,
                new double[][] {recorded},
                WavEncoding.FLOAT_32,
                1);
        StringBuilder csv = new StringBuilder("time_s\n");
        for (int k = 0; k / CRANK_HZ < LENGTH_S; k++) {
            csv.append(String.format(Locale.ROOT, "%.8f%n", k / CRANK_HZ));
        }
        Files.writeString(folder.resolve("c01.tach.csv"), csv.toString());
        Files.writeString(
                folder.resolve("vehicle.toml"),
                """
                [vehicle]
                unit = "ML-07"
                [engine]
                cylinders = 4
                idle_rpm = 800
                [[pulleys]]
                name = "crank"
                role = "crank"
                diameter_mm = 150.0
                face = "grooved"
                [[pulleys]]
                name = "idler"
                role = "idler"
                diameter_mm = 76.0
                face = "flat"
                [[pulleys.bearings]]
                designation = "6203"
                balls = 8
                ball_diameter_mm = 6.747
                pitch_diameter_mm = 28.5
                contact_angle_deg = 0
                rotating_ring = "outer"
                [[pulleys]]
                name = "alternator"
                role = "alternator"
                diameter_mm = 56.0
                face = "grooved"
                [[pulleys]]
                name = "pump"
                role = "water-pump"
                diameter_mm = 132.0
                face = "grooved"
                """);
        Files.writeString(
                folder.resolve("visit.toml"),
                """
                [visit]
                date = 2026-03-04T09:30:00
                [[captures]]
                file = "c01.wav"
                tach = "c01.tach.csv"
                point = "idler"
                axis = "radial"
                mount = "magnet"
                regime = "idle"
                """);
        visit = VisitFolder.read(folder);
    }

    private void addTone(double order, double amplitude) {
        for (int i = 0; i < recorded.length; i++) {
            recorded[i] += amplitude * Math.cos(2 * Math.PI * order * CRANK_HZ * i / RATE_HZ);
        }
    }

    private void addKnocks(double order, double amplitude, double jitter) {
        Random random = new Random(Math.round(1000 * order));
        double decayS = 0.0012;
        for (double t = 0.01; t < LENGTH_S - 0.05; ) {
            int first = (int) Math.ceil(t * RATE_HZ);
            for (int i = first; i < first + 160; i++) {
                double since = i / RATE_HZ - t;
                recorded[i] +=
                        amplitude
                                * Math.exp(-since / decayS)
                                * Math.sin(2 * Math.PI * RING_HZ * since);
            }
            t += (1 + jitter * random.nextGaussian()) / (order * CRANK_HZ);
        }
    }

    private PartAudio listen(String part, PartListening.How how) {
        TrackedCapture tracked = TrackedCapture.of(visit.vehicle(), visit.captures().get(0));
        return PartListening.of(visit.vehicle(), tracked, 0, part, how);
    }

    /** Amplitude of an order over the middle of a record, away from the filter's ends. */
    private static double amplitude(double[] x, double order) {
        int from = x.length / 8;
        int to = x.length - from;
        double re = 0;
        double im = 0;
        double sum = 0;
        for (int i = from; i < to; i++) {
            double hann = 1 - Math.cos(2 * Math.PI * (i - from) / (to - from));
            double angle = 2 * Math.PI * order * CRANK_HZ * i / RATE_HZ;
            re += hann * x[i] * Math.cos(angle);
            im += hann * x[i] * Math.sin(angle);
            sum += hann;
        }
        return 2 * Math.hypot(re, im) / sum;
    }

    private static double changeDb(double[] from, double[] to, double order) {
        return 20 * Math.log10(amplitude(to, order) / amplitude(from, order));
    }

    @Test
    void tonesOfThePartStayAndTheOthersGo() {
        double[] idler = listen("idler", PartListening.How.ORDERS).accelMps2();
        double stays = 0.5;
        assertEquals(0, changeDb(recorded, idler, IDLER_TURNS), stays);
        assertEquals(0, changeDb(recorded, idler, 3 * IDLER_TURNS), stays);
        double gone = -40;
        for (double other : new double[] {2, 4, ALTERNATOR_TURNS, 12 * ALTERNATOR_TURNS}) {
            assertTrue(
                    changeDb(recorded, idler, other) < gone,
                    "order " + other + ": " + changeDb(recorded, idler, other) + " dB");
        }
    }

    private static double[] squareAbove2kHz(double[] x) {
        // A steep enough high pass for a test: four first differences favour 3.4 kHz over tones.
        double[] y = x.clone();
        for (int pass = 0; pass < 4; pass++) {
            for (int i = y.length - 1; i > 0; i--) {
                y[i] -= y[i - 1];
            }
        }
        for (int i = 0; i < y.length; i++) {
            y[i] *= y[i];
        }
        return y;
    }

    @Test
    void ringingInThePartsRhythmStaysAndTheNeighboursGoes() {
        double[] before = squareAbove2kHz(recorded);
        PartAudio idler = listen("idler", PartListening.How.RINGING);
        double[] after = squareAbove2kHz(idler.accelMps2());
        double own = IDLER_OUTER * IDLER_TURNS;
        double neighbour = 4.31 * ALTERNATOR_TURNS;
        // The envelope is followed without its mean, and strikes jitter: some of it is lost.
        double stays = 6;
        assertEquals(0, changeDb(before, after, own), stays, idler.notes().toString());
        double gone = -20;
        assertTrue(
                changeDb(before, after, neighbour) < gone,
                changeDb(before, after, neighbour) + " dB: " + idler.notes());
        assertTrue(idler.notes().get(0).contains("bearing-outer-ring"), idler.notes().toString());
    }

    /** Held against another capture, the rhythm is that one's, whatever stands out here. */
    @Test
    void ringsInTheRhythmThatIsAskedFor() {
        TrackedCapture tracked = TrackedCapture.of(visit.vehicle(), visit.captures().get(0));
        PartAudio turn =
                PartListening.of(
                        visit.vehicle(), tracked, 0, "idler", PartListening.How.RINGING, "turn");
        assertEquals("turn", turn.rhythm());
        IllegalArgumentException e =
                assertThrows(
                        IllegalArgumentException.class,
                        () ->
                                PartListening.of(
                                        visit.vehicle(),
                                        tracked,
                                        0,
                                        "idler",
                                        PartListening.How.RINGING,
                                        "vanes"));
        assertTrue(e.getMessage().contains("turn, "), e.getMessage());
    }

    @Test
    void engineKeepsItsOrdersAlone() {
        double[] engine = listen("engine", PartListening.How.BOTH).accelMps2();
        double stays = 0.1;
        assertEquals(0, changeDb(recorded, engine, 2), stays);
        assertTrue(changeDb(recorded, engine, ALTERNATOR_TURNS) < -20);
    }

    @Test
    void saysWhatWasNotHeardAndWhatTheVehicleHas() {
        NotHeardException e =
                assertThrows(
                        NotHeardException.class, () -> listen("pump", PartListening.How.ORDERS));
        assertTrue(e.getMessage().contains("Nothing of the pump is heard"), e.getMessage());
        IllegalArgumentException wrong =
                assertThrows(
                        IllegalArgumentException.class,
                        () -> listen("fan", PartListening.How.BOTH));
        assertTrue(wrong.getMessage().contains("crank, idler"), wrong.getMessage());
    }

    @Test
    void soundsComeToOneLoudnessAndNeverClip() throws IOException {
        PartAudio idler = listen("idler", PartListening.How.BOTH);
        double[] quiet = idler.accelMps2().clone();
        for (int i = 0; i < quiet.length; i++) {
            quiet[i] *= 0.03;
        }
        PartAudio after = new PartAudio("idler", RATE_HZ, quiet, "", List.of());
        List<PartAudio> both = List.of(idler, after);
        List<Double> equal = Loudness.gains(both, Loudness.Keep.LOUDNESS);
        double roundOff = 1e-9;
        assertEquals(
                20 * Math.log10(1 / 0.03),
                Loudness.gainDb(equal.get(1)) - Loudness.gainDb(equal.get(0)),
                roundOff);
        List<Double> same = Loudness.gains(both, Loudness.Keep.GAIN);
        assertEquals(same.get(0), same.get(1));
        Path file = folder.resolve("both.wav");
        ListeningFile.write(file, both, equal);
        double[] written = WavFile.read(file, 1).valuesMps2()[0];
        int pause = (int) Math.round(ListeningFile.PAUSE_S * RATE_HZ);
        assertEquals(2 * quiet.length + pause, written.length);
        double peak = 0;
        for (double v : written) {
            peak = Math.max(peak, Math.abs(v));
        }
        double minusOneDb = Math.pow(10, -1 / 20.0);
        double step = 1.0 / (1 << 15);
        assertTrue(peak <= minusOneDb + step, "peak " + peak);
        assertFalse(Files.exists(folder.resolve(".both.wav.part")));
        int middle = quiet.length / 2;
        int second = quiet.length + pause + middle;
        // Two roundings to 16 bit.
        assertEquals(written[middle], written[second], 2 * step);
    }

    @Test
    void silenceHasNoLoudness() {
        PartAudio silent = new PartAudio("idler", RATE_HZ, new double[100], "", List.of());
        assertThrows(
                IllegalArgumentException.class,
                () -> Loudness.gains(List.of(silent), Loudness.Keep.LOUDNESS));
    }
}
