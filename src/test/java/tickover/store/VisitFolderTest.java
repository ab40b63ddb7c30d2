package tickover.store;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tickover.align.CaptureSignal;
import tickover.align.NoSpeed;
import tickover.align.SpeedReadings;
import tickover.align.SpeedSource;
import tickover.align.TachPulses;
import tickover.diagnose.CaptureLabel;
import tickover.diagnose.Mount;
import tickover.diagnose.QualityNote;
import tickover.diagnose.QualityProblem;
import tickover.diagnose.Regime;
import tickover.drive.BearingGeometry;
import tickover.drive.Belt;
import tickover.drive.Condition;
import tickover.drive.DriveModel;
import tickover.drive.Engine;
import tickover.drive.Face;
import tickover.drive.PassLine;
import tickover.drive.Position;
import tickover.drive.Pulley;
import tickover.drive.PulleyBearing;
import tickover.drive.Ring;
import tickover.drive.Role;
import tickover.drive.Vehicle;
import tickover.order.TimeRange;

class VisitFolderTest {
    @TempDir Path dir;

    @Test
    void readsEveryKeyOfVehicleAndVisit() {
        Visit visit = VisitFolder.read(Folders.good(dir));
        assertEquals(UUID.fromString("0195f0c2-7b3e-7c1a-9d52-5d0e3c8a6f10"), visit.id());
        assertEquals(LocalDateTime.of(2026, 3, 4, 9, 30), visit.date());
        assertEquals(OptionalDouble.of(182340), visit.odometerKm());
        assertEquals("whine that climbs with engine speed", visit.complaint());

        Vehicle vehicle = visit.vehicle();
        assertEquals("ML-07", vehicle.unit());
        assertEquals("Mobile library, 2.2 l diesel van", vehicle.description());
        assertEquals(
                Engine.of(4, 4).withIdleRpm(780).withFiringOrder(List.of(1, 3, 4, 2)),
                vehicle.engine());
        assertEquals(
                List.of(Belt.of("main", 1100, List.of("crank", "idler", "alternator"))),
                vehicle.belts());
        Pulley idler =
                Pulley.named("idler", Role.IDLER, 70)
                        .face(Face.FLAT)
                        .line(new PassLine("slots", 36))
                        .bearing(
                                PulleyBearing.of(
                                        "6203", new BearingGeometry(8, 6.747, 28.5, 0), Ring.OUTER))
                        .build();
        assertEquals(
                List.of(
                        Pulley.named("crank", Role.CRANK, 165).build(),
                        idler,
                        Pulley.named("alternator", Role.ALTERNATOR, 55).build()),
                vehicle.pulleys());

        VisitCapture first = visit.captures().get(0);
        Condition condition =
                Condition.UNLOADED.withAircon(true).withDriveGear(true).withInjectorOff(2);
        assertEquals(
                new CaptureLabel("c01", "alternator", "radial", Mount.HAND, Regime.IDLE, condition),
                first.label());
        assertEquals(50.0, first.scaleMps2());
        assertEquals(SpeedSource.Kind.TACH, first.speedKind());
    }

    @Test
    void loadsSamplesAndPulses() {
        Visit visit = VisitFolder.read(Folders.good(dir));
        CaptureSignal signal = visit.captures().get(0).load();
        assertEquals(8000, signal.sampleRateHz());
        assertEquals(800, signal.sampleCount());
        double halfStepMps2 = 50.0 / 32768 / 2;
        assertEquals(Math.sin(0.1 * 5), signal.accelMps2(0)[5], halfStepMps2);
        TachPulses tach = (TachPulses) signal.speed();
        assertArrayEquals(new double[] {0.01, 0.085, 0.16}, tach.timesS());
        assertEquals(1, tach.turnsPerCrankTurn());

        CaptureSignal second = visit.capture("c02").orElseThrow().load();
        assertEquals(3, second.channels());
        SpeedReadings obd = (SpeedReadings) second.speed();
        assertTrue(obd.lagUnknown());
        assertArrayEquals(new double[] {780, 781.5}, obd.speedsRpm());
    }

    @Test
    void absentKeysTakeTheirDocumentedDefaults() throws IOException {
        Folders.good(dir);
        Files.writeString(
                dir.resolve("vehicle.toml"),
                """
                [vehicle]
                unit = "ML-08"
                [engine]
                cylinders = 3
                [[belts]]
                name = "main"
                [[pulleys]]
                name = "k"
                role = "crank"
                diameter_mm = 150
                [[pulleys]]
                name = "i"
                role = "idler"
                diameter_mm = 70
                [[pulleys.bearings]]
                [[pulleys]]
                name = "w"
                role = "water-pump"
                diameter_mm = 90
                [[pulleys.bearings]]
                designation = "6203"
                """);
        Files.writeString(
                dir.resolve("visit.toml"),
                "[visit]\ndate = 2026-03-04T09:30:00\n[[captures]]\nfile = 'c01.wav'\n");
        Visit visit = VisitFolder.read(dir);
        assertEquals(OptionalDouble.empty(), visit.odometerKm());
        assertEquals("", visit.complaint());
        Vehicle vehicle = visit.vehicle();
        assertEquals("", vehicle.description());
        assertEquals(Engine.of(3, 4), vehicle.engine());
        assertEquals(List.of(Belt.of("main", List.of())), vehicle.belts());
        Pulley idler = vehicle.pulley("i").orElseThrow();
        assertEquals(Face.GROOVED, idler.face());
        assertTrue(idler.position().isEmpty());
        assertEquals(List.of(PulleyBearing.unknown(Ring.OUTER)), idler.bearings());
        assertEquals(
                List.of(PulleyBearing.ofDesignation("6203", Ring.INNER)),
                vehicle.pulley("w").orElseThrow().bearings());

        VisitCapture capture = visit.captures().get(0);
        assertEquals(
                new CaptureLabel("c01", "", "", Mount.HAND, Regime.IDLE, Condition.UNLOADED),
                capture.label());
        assertEquals(OptionalInt.empty(), capture.label().condition().injectorOff());
        assertEquals(1.0, capture.scaleMps2());
        assertEquals(1, capture.pulsesPerTurn());
        assertEquals("crank", capture.tachPulley());
        assertEquals(SpeedSource.Kind.NONE, capture.speedKind());
        assertEquals(new NoSpeed(), capture.load().speed());
    }

    @Test
    void tachOnAnotherPulleyTurnsByTheDiameters() throws IOException {
        Folders.good(dir);
        replace("visit.toml", "tach_pulley = \"crank\"", "tach_pulley = \"alternator\"");
        TachPulses tach = (TachPulses) VisitFolder.read(dir).captures().get(0).load().speed();
        assertEquals(165.0 / 55.0, tach.turnsPerCrankTurn());
    }

    /** The kinematics can be computed from what is let in; a tilde stands for a line end. */
    @ParameterizedTest
    @CsvSource({
        "diameter_mm = 165.0, diameter_mm = , 0.001, 1000000",
        "length_mm = 1100, length_mm = , 0.001, 1000000",
        "per_turn = 36, per_turn = , 0.000001, 1000000",
        "pitch_diameter_mm = 28.5, pitch_diameter_mm = , 6.75, 1000000",
        "ball_diameter_mm = 6.747, ball_diameter_mm = , 0.001, 28",
        "diameter_mm = 55.0, y_mm = 0~diameter_mm = 55.0~x_mm = , -1000000, 1000000"
    })
    void drivesAtTheLimitsCanBeComputed(String from, String to, String least, String most)
            throws IOException {
        Folders.good(dir);
        for (String value : List.of(least, most)) {
            Files.writeString(dir.resolve("vehicle.toml"), Folders.VEHICLE);
            replace("vehicle.toml", from, to.replace("~", "\n") + value);
            assertEquals(3, DriveModel.of(VisitFolder.read(dir).vehicle()).parts().size());
        }
        Files.writeString(dir.resolve("vehicle.toml"), Folders.VEHICLE);
        String beyond = to.replace("~", "\n") + "1000001";
        replace("vehicle.toml", from, beyond);
        String message =
                assertThrows(VisitFolderException.class, () -> VisitFolder.read(dir)).getMessage();
        assertTrue(message.startsWith("vehicle.toml line "), message);
    }

    @ParameterizedTest
    @CsvSource({
        "2026-03-04T09:30:00, 2026-03-04T09:30:00",
        "2026-03-04 09:30:00.25, 2026-03-04T09:30:00.25",
        "2026-03-04T09:30:00+02:00, 2026-03-04T09:30:00",
        "2026-03-04T09:30:00Z, 2026-03-04T09:30:00",
        "2026-03-04, 2026-03-04T00:00:00"
    })
    void datesKeepTheirLocalPart(String written, LocalDateTime read) throws IOException {
        Folders.good(dir);
        replace("visit.toml", "2026-03-04T09:30:00", written);
        assertEquals(read, VisitFolder.read(dir).date());
    }

    @Test
    void acceptsByteOrderMarksAndWindowsLineEnds() throws IOException {
        Visit plain = VisitFolder.read(Folders.good(dir));
        for (String name : List.of("vehicle.toml", "visit.toml", "c01.tach.csv", "c02.obd.csv")) {
            String text = Files.readString(dir.resolve(name));
            Files.writeString(dir.resolve(name), "\uFEFF" + text.replace("\n", "\r\n") + "\r\n");
        }
        Visit marked = VisitFolder.read(dir);
        assertEquals(plain, marked);
        assertArrayEquals(
                new double[] {0.01, 0.085, 0.16},
                ((TachPulses) marked.captures().get(0).load().speed()).timesS());
    }

    @Test
    void withoutAnIdTheContentMakesOne() throws IOException {
        Folders.good(dir.resolve("a"));
        Folders.good(dir.resolve("b"));
        for (String folder : List.of("a", "b")) {
            replace(folder + "/visit.toml", "id = \"0195f0c2-7b3e-7c1a-9d52-5d0e3c8a6f10\"\n", "");
        }
        UUID first = VisitFolder.read(dir.resolve("a")).id();
        assertEquals(first, VisitFolder.read(dir.resolve("a")).id());
        assertEquals(first, VisitFolder.read(dir.resolve("b")).id());
        Files.writeString(dir.resolve("b/notes.txt"), "not named by the visit");
        assertEquals(first, VisitFolder.read(dir.resolve("b")).id());
        replace("b/c01.tach.csv", "0.085", "0.086");
        assertNotEquals(first, VisitFolder.read(dir.resolve("b")).id());
    }

    @Test
    void readsWhatItWrote() {
        Vehicle vehicle =
                new Vehicle(
                        "بنغازي \"7\" \\ ѣ",
                        "two\nlines\tand a tab\u0007",
                        Engine.of(3, 2).withIdleRpm(812.5).withFiringOrder(List.of(3, 1, 2)),
                        List.of(
                                Belt.of("main", 1234.5, List.of("crank", "ventilateur é")),
                                Belt.of("second", List.of())),
                        List.of(
                                Pulley.named("crank", Role.CRANK, 160.1)
                                        .at(new Position(0, -0.0))
                                        .build(),
                                Pulley.named("ventilateur é", Role.FAN, 1e-3)
                                        .face(Face.FLAT)
                                        .at(new Position(-1e6, 1e-10))
                                        .line(new PassLine("blades \"x\"", 7))
                                        .line(new PassLine("bolts", 4.5))
                                        .bearing(PulleyBearing.unknown(Ring.INNER))
                                        .bearing(PulleyBearing.ofDesignation("6203", Ring.OUTER))
                                        .bearing(
                                                PulleyBearing.ofGeometry(
                                                        new BearingGeometry(9, 7.94, 39.04, 15),
                                                        Ring.OUTER))
                                        .build()));
        Condition belted = Condition.UNLOADED.withBeltOn(false).withInjectorOff(3);
        Condition loaded = Condition.UNLOADED.withHeadlights(true).withSteering(true);
        double[] timesS = {-0.1, 0.1 + 0.2, 1 / 3.0, 1e9};
        double ratio = 160.1 / 1e-3;
        VisitDraft draft =
                VisitDraft.of(
                                vehicle,
                                LocalDateTime.of(2026, 12, 31, 23, 59, 59, 123_000_000),
                                List.of(
                                        draft("a", belted, new TachPulses(timesS, 36, ratio))
                                                .markedOn("ventilateur é"),
                                        draft(
                                                "b é",
                                                loaded,
                                                new SpeedReadings(
                                                        timesS,
                                                        new double[] {0, 1, 2, 3.25},
                                                        true)),
                                        draft(
                                                        "c",
                                                        loaded,
                                                        new SpeedReadings(
                                                                timesS,
                                                                new double[] {9, 8, 7, 6},
                                                                false))
                                                .encodedAs(WavEncoding.PCM_24, 20),
                                        draft("d", belted, new NoSpeed())))
                        .withComplaint("\"it 'grinds'\"\\\r\n…")
                        .withOdometerKm(1e7 + 0.1)
                        .withId(UUID.fromString("0195F0C2-7b3e-7c1a-9d52-5d0e3c8a6f10"));
        Visit written = VisitFolder.write(draft, dir.resolve("new"));
        assertEquals(vehicle, written.vehicle());
        assertEquals(draft.date(), written.date());
        assertEquals(draft.odometerKm(), written.odometerKm());
        assertEquals(draft.complaint(), written.complaint());
        assertEquals(draft.id().orElseThrow(), written.id());
        assertEquals(
                draft.captures().stream().map(CaptureDraft::label).toList(),
                written.captures().stream().map(VisitCapture::label).toList());
        TachPulses tach = (TachPulses) written.captures().get(0).load().speed();
        assertArrayEquals(timesS, tach.timesS());
        assertEquals(36, tach.pulsesPerTurn());
        assertEquals(ratio, tach.turnsPerCrankTurn());
        SpeedReadings known = (SpeedReadings) written.captures().get(2).load().speed();
        assertEquals(SpeedSource.Kind.KNOWN, known.kind());
        assertArrayEquals(timesS, known.timesS());
        assertEquals(written, VisitFolder.read(dir.resolve("new")));
    }

    @Test
    void readsTheQualityThatItWrote() {
        List<TimeRange> ranges = List.of(new TimeRange(0, 0.1 + 0.2), new TimeRange(1 / 3.0, 1e6));
        List<QualityNote> noted =
                List.of(
                        new QualityNote("", QualityProblem.TACH_DROPOUT, ranges, "the \"mark\" \\"),
                        QualityNote.ofWhole("", QualityProblem.MOUNT_CHANGE, ""));
        VisitDraft draft =
                VisitDraft.of(
                        VisitFolder.read(Folders.good(dir.resolve("good"))).vehicle(),
                        LocalDateTime.of(2026, 1, 1, 0, 0),
                        List.of(draft("a", Condition.UNLOADED, new NoSpeed()).noted(noted)));
        VisitCapture read = VisitFolder.write(draft, dir.resolve("new")).captures().get(0);
        assertEquals(
                List.of(
                        new QualityNote(
                                "a",
                                QualityProblem.TACH_DROPOUT,
                                ranges.subList(0, 1),
                                "the \"mark\" \\"),
                        new QualityNote(
                                "a",
                                QualityProblem.TACH_DROPOUT,
                                ranges.subList(1, 2),
                                "the \"mark\" \\"),
                        QualityNote.ofWhole("a", QualityProblem.MOUNT_CHANGE, "")),
                read.quality());
        assertEquals(read, VisitFolder.read(dir.resolve("new")).captures().get(0));
    }

    private static CaptureDraft draft(String id, Condition condition, SpeedSource speed) {
        return CaptureDraft.of(
                new CaptureLabel(id, "injector-2", "axial", Mount.STUD, Regime.SWEEP, condition),
                new CaptureSignal(4000, Folders.sines(3, 101), speed));
    }

    @Test
    void writesNothingIntoAFolderThatHoldsSomething() throws IOException {
        Files.writeString(dir.resolve("x"), "");
        VisitDraft draft =
                VisitDraft.of(
                        VisitFolder.read(Folders.good(dir.resolve("good"))).vehicle(),
                        LocalDateTime.of(2026, 1, 1, 0, 0),
                        List.of(draft("a", Condition.UNLOADED, new NoSpeed())));
        StoreException refused =
                assertThrows(StoreException.class, () -> VisitFolder.write(draft, dir));
        assertEquals(StoreException.Reason.FOLDER_NOT_EMPTY, refused.reason());
    }

    private void replace(String name, String from, String to) throws IOException {
        Path file = dir.resolve(name);
        String text = Files.readString(file);
        assertTrue(text.contains(from), name + " has no " + from);
        Files.writeString(file, text.replace(from, to));
    }
}
