package tickover.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.google.gson.JsonParseException;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.TimeZone;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tickover.diagnose.Mount;
import tickover.diagnose.Regime;
import tickover.drive.Condition;
import tickover.link.Chunk;
import tickover.link.ChunkSink;
import tickover.link.RecordingHeader;
import tickover.link.RecordingReader;
import tickover.link.RecordingWriter;
import tickover.session.SourceInfo.Language;
import tickover.session.SourceInfo.Role;
import tickover.sim.EndlessScene;
import tickover.sim.LineTrouble;
import tickover.sim.SimulatedProbe;
import tickover.unit.HostNanos;

/** Recordings whose head, notes or times are not what this version writes. */
class StrangeRecordingTest {
    private static final Instant STARTED = Instant.parse("2026-03-04T22:30:05Z");
    private static final PlannedCapture IDLER =
            new PlannedCapture("idler", "", Mount.HAND, Regime.IDLE, Condition.UNLOADED);

    @TempDir private Path folder;

    private Path plain() {
        Path file = folder.resolve(UUID.randomUUID() + ".tkr");
        EndlessScene scene =
                new EndlessScene(
                        new EndlessScene.Turning(900, 0, 1),
                        List.of(new EndlessScene.Tone(2, 1, 0)),
                        0.05,
                        1);
        new VirtualRecording(
                        List.of(
                                new VirtualRecording.Device(
                                        SourceInfo.of(
                                                Role.PROBE, Language.FRAMES, "simulated", 0, "1"),
                                        new SimulatedProbe(
                                                SimulatedProbe.Spec.ordinary(1000, 40), scene),
                                        new LineTrouble(LineTrouble.Spec.NONE, 1))))
                .capture(IDLER, 1, 4)
                .write(file, 5);
        return file;
    }

    /** Writes a recording again with other chunks before its own. */
    private Path with(String name, List<Chunk> extra) {
        List<Chunk> all = new ArrayList<>(extra);
        RecordingReader.open(plain())
                .forEach(
                        new ChunkSink() {
                            @Override
                            public void chunk(Chunk chunk) {
                                if (chunk.kind() != Chunk.Kind.END) {
                                    all.add(chunk);
                                }
                            }

                            @Override
                            public void damaged(long offset, long bytes, HostNanos lastGood) {}
                        });
        Path file = folder.resolve(name);
        RecordingHeader header =
                new RecordingHeader(
                        UUID.nameUUIDFromBytes(name.getBytes(StandardCharsets.UTF_8)),
                        new HostNanos(0),
                        STARTED);
        try (RecordingWriter writer = RecordingWriter.create(file, header)) {
            all.forEach(writer::append);
        }
        return file;
    }

    private static Chunk chunk(Chunk.Kind kind, int source, String text) {
        return new Chunk(kind, source, new HostNanos(0), text.getBytes(StandardCharsets.UTF_8));
    }

    private static Chunk wallTime(String zone, double afterS) {
        Instant now = STARTED.plusMillis(Math.round(1000 * afterS));
        byte[] json = WallTime.of(Clock.fixed(now, ZoneId.of(zone))).json();
        return new Chunk(Chunk.Kind.WALL_TIME, 0, new HostNanos(0).plusS(afterS), json);
    }

    private RecordingVisit.Made made(Path file) {
        String name = file.getFileName() + "-" + UUID.randomUUID();
        return RecordingVisit.write(file, RecordingVisit.About.NOTHING, folder.resolve(name));
    }

    private static boolean says(List<String> remarks, String words) {
        return remarks.stream().anyMatch(r -> r.contains(words));
    }

    /** The clock on the workshop's wall counts, wherever the recording is imported. */
    @Test
    void theVisitsDateIsTheDateWhereItWasRecorded() {
        Path file = with("tokyo.tkr", List.of(wallTime("Asia/Tokyo", 0)));
        TimeZone before = TimeZone.getDefault();
        try {
            for (String importer : List.of("America/Los_Angeles", "Asia/Tokyo", "UTC")) {
                TimeZone.setDefault(TimeZone.getTimeZone(importer));
                RecordingVisit.Made made = made(file);
                assertEquals(LocalDateTime.parse("2026-03-05T07:30:05"), made.visit().date());
                assertFalse(says(made.remarks(), "time zone"), made.remarks().toString());
            }
        } finally {
            TimeZone.setDefault(before);
        }
    }

    @Test
    void aRecordingThatSaysNoZoneIsDatedInUtcAndSaysSo() {
        RecordingVisit.Made made = made(with("old.tkr", List.of()));
        assertEquals(LocalDateTime.parse("2026-03-04T22:30:05"), made.visit().date());
        assertTrue(says(made.remarks(), "time zone"), made.remarks().toString());
    }

    private static void damageHead(Path file) throws IOException {
        byte[] bytes = Files.readAllBytes(file);
        bytes[20] ^= 0x10;
        Files.write(file, bytes);
    }

    @Test
    void aDamagedHeadIsMadeUpForByTheTimesNotedWithin() throws IOException {
        Path file = with("head.tkr", List.of(wallTime("Asia/Tokyo", 0)));
        damageHead(file);
        RecordingVisit.Made made = made(file);
        assertEquals(LocalDateTime.parse("2026-03-05T07:30:05"), made.visit().date());
        assertEquals("idler", made.visit().captures().get(0).label().point());
        assertTrue(says(made.remarks(), "head.tkr has a damaged head"), made.remarks().toString());
        assertTrue(says(RecordingContent.of(file).remarks(), "damaged head"));

        Path copy = Files.copy(file, folder.resolve("another-name.tkr"));
        assertEquals(made.visit().id(), made(copy).visit().id(), "the content tells, not the name");
    }

    @Test
    void aDamagedHeadWithoutTimesGivesTheDateOfTheFile() throws IOException {
        Path file = with("bare.tkr", List.of());
        damageHead(file);
        Files.setLastModifiedTime(file, FileTime.from(Instant.parse("2026-03-06T10:00:00Z")));
        RecordingVisit.Made made = made(file);
        assertEquals(LocalDateTime.parse("2026-03-06T10:00:00"), made.visit().date());
        assertTrue(says(made.remarks(), "last written"), made.remarks().toString());
    }

    @Test
    void strangeNotesAndDevicesAreCountedAndPassedOver() {
        List<Chunk> strange =
                List.of(
                        chunk(Chunk.Kind.NOTE, 0, "{\"note\":\"tach\",\"number\":0,\"body\":{}}"),
                        chunk(
                                Chunk.Kind.NOTE,
                                0,
                                "{\"note\":\"tach\",\"number\":0,\"body\":{\"pulley\":\"crank\","
                                        + "\"pulsesPerTurn\":0}}"),
                        chunk(Chunk.Kind.NOTE, 0, "{\"note\":\"vehicle\",\"number\":0,\"body\":7}"),
                        chunk(Chunk.Kind.NOTE, 0, "{\"note\":[],\"number\":{}}"),
                        chunk(Chunk.Kind.NOTE, 0, "{\"note\":\"capture-ends\",\"number\":\"x\"}"),
                        chunk(Chunk.Kind.NOTE, 0, "\u0000"),
                        chunk(Chunk.Kind.SOURCE, 7, "{\"role\":\"thermometer\"}"),
                        chunk(
                                Chunk.Kind.SOURCE,
                                8,
                                "{\"role\":\"probe\",\"language\":\"text\",\"port\":\"p\","
                                        + "\"baud\":0,\"device\":\"\",\"header\":\"no axes\"}"),
                        chunk(Chunk.Kind.EVENT, 0, "[]"),
                        chunk(Chunk.Kind.WALL_TIME, 0, "{\"utc\":\"yesterday\"}"),
                        // Of a newer version, which is no fault.
                        chunk(Chunk.Kind.NOTE, 0, "{\"note\":\"weather\",\"number\":0}"));
        Path file = with("strange.tkr", strange);
        RecordingVisit.Made made = made(file);
        assertEquals(1, made.visit().captures().size());
        assertTrue(says(made.remarks(), "8 notes"), made.remarks().toString());
        assertTrue(says(RecordingContent.of(file).remarks(), "8 notes"));
    }

    @Test
    void aCaptureWithAStrangeDescriptionIsKeptWithoutAName() {
        Chunk begin =
                new Chunk(
                        Chunk.Kind.NOTE,
                        0,
                        new HostNanos(0),
                        ("{\"note\":\"capture-begins\",\"number\":3,\"body\":{\"point\":\"a\\nb\","
                                        + "\"axis\":\"\",\"mount\":\"glue\",\"regime\":7}}")
                                .getBytes(StandardCharsets.UTF_8));
        RecordingVisit.Made made = made(with("begin.tkr", List.of(begin)));
        // It ends where the recording's own capture begins, after less than a second and a half.
        assertEquals(
                List.of("idler"),
                made.visit().captures().stream().map(c -> c.label().point()).toList());
        assertTrue(says(made.remarks(), "c03 at unnamed"), made.remarks().toString());
    }

    @Test
    void aVehicleThatCannotBeReadIsOneSentence() {
        Chunk note =
                new Chunk(
                        Chunk.Kind.NOTE,
                        0,
                        new HostNanos(0),
                        RecordingNote.vehicle("[vehicle\nunit = ").json());
        Path file = with("vehicle.tkr", List.of(note));
        AcquisitionException e = assertThrows(AcquisitionException.class, () -> made(file));
        assertTrue(e.getMessage().contains("give a vehicle.toml by --vehicle"), e.getMessage());
    }

    /** Whatever bytes stand in a note, a device's description or a time, it is no mistake. */
    @Test
    void mutatedTextNeverEndsInAnException() {
        long seed = 20260304;
        System.out.println("seed " + seed);
        Random random = new Random(seed);
        List<byte[]> texts =
                List.of(
                        RecordingNote.begins(1, IDLER).json(),
                        RecordingNote.tach("crank", 2).json(),
                        RecordingNote.vehicle("x = 1").json(),
                        SourceInfo.of(Role.TACH, Language.FRAMES, "p", 9600, "k").json(),
                        WallTime.of(Clock.fixed(STARTED, ZoneId.of("Asia/Tokyo"))).json());
        String alphabet = "{}[]\":,0123456789-.eE\\ truefalsnu";
        for (int i = 0; i < 20_000; i++) {
            byte[] text = texts.get(i % texts.size()).clone();
            for (int k = random.nextInt(4); k >= 0; k--) {
                text[random.nextInt(text.length)] =
                        (byte) alphabet.charAt(random.nextInt(alphabet.length()));
            }
            RecordingNote.parse(text)
                    .ifPresent(
                            n -> {
                                switch (n.kind()) {
                                    case BEGIN -> n.capture();
                                    case VEHICLE -> n.vehicleToml();
                                    case TACH -> assertTrue(n.pulsesPerTurn() >= 1);
                                    case END, UNREADABLE -> assertTrue(n.number() >= 0);
                                }
                            });
            WallTime.parse(text);
            try {
                SourceInfo.parse(text);
            } catch (JsonParseException e) {
                // What callers count on, and nothing else.
                assertFalse(e.getMessage().isEmpty());
            }
        }
    }
}
