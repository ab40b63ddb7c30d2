package tickover.store;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.net.URISyntaxException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tickover.align.TachPulses;
import tickover.diagnose.RepairMark;
import tickover.diagnose.Verdict;
import tickover.diagnose.VisitResult;

/**
 * Logs of released versions open for ever. They lie in the test resources as the program of that
 * version left them and are never made anew.
 */
class OldLogTest {
    private static final UUID VISIT = UUID.fromString("0195f0c2-7b3e-7c1a-9d52-5d0e3c8a6f10");

    @TempDir Path temp;

    @Test
    void versionOneOpens() throws Exception {
        Path data = copy("log-v1");
        assertEquals(1, Raw.count(data, "PRAGMA user_version"));
        try (Log log = Log.open(data)) {
            KeptVisit line = log.visits("ML-07").get(0);
            assertEquals(VISIT, line.id());
            assertEquals(182340, line.odometerKm().orElseThrow());
            assertEquals(Optional.of(Instant.parse("2026-03-04T12:00:00Z")), line.analysedAt());
            assertEquals(Optional.of(Verdict.COMPONENT), line.verdict());

            Visit visit = log.visit(VISIT).orElseThrow();
            assertEquals(
                    List.of("crank", "idler", "alternator"), visit.vehicle().belts().get(0).path());
            TachPulses tach = (TachPulses) visit.captures().get(0).load().speed();
            assertEquals(3, tach.timesS().length);
            assertEquals(3, visit.captures().get(1).load().channels());

            VisitResult result = log.latestResult(VISIT).orElseThrow();
            assertEquals(0.875, result.findings().first().probability());
            assertEquals(
                    List.of("engine", "belt:main"),
                    result.levels().get(0).lines().get(0).sharedWith());
            assertEquals(
                    2,
                    log.history().levels("ML-07").stream()
                            .filter(l -> l.part().equals("idler"))
                            .count());
            log.export(VISIT, temp.resolve("out"));
        }
        assertEquals(Schema.CURRENT.version(), Raw.count(data, "PRAGMA user_version"));
        assertEquals(VISIT, VisitFolder.read(temp.resolve("out")).id());
    }

    @Test
    void versionFourOpens() throws Exception {
        Path data = copy("log-v4");
        assertEquals(4, Raw.count(data, "PRAGMA user_version"));
        try (Log log = Log.open(data)) {
            VisitResult result = log.latestResult(VISIT).orElseThrow();
            assertEquals(0.875, result.findings().first().probability());
            assertEquals("grinds when cold", log.history().notes("ML-07").get(0).text());
            List<RepairMark> repairs = log.history().repairs("ML-07");
            assertEquals(1, repairs.size(), "the other was taken back");
            assertEquals("new idler", repairs.get(0).text());
            assertEquals(3, log.history().levels("ML-07").size());
            log.history().refresh((done, total) -> {});
            assertEquals(1, log.history().fleet().get(0).urgency(), "the repair is not proven");
        }
    }

    private Path copy(String name) throws IOException, URISyntaxException {
        Path from = Path.of(OldLogTest.class.getResource(name).toURI());
        Path to = temp.resolve(name);
        Files.createDirectories(to);
        for (String entry : Folders.tree(from)) {
            Files.copy(from.resolve(entry), to.resolve(entry));
        }
        return to;
    }
}
