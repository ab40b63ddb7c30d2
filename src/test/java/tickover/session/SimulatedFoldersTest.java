package tickover.session;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tickover.align.CaptureSignal;
import tickover.sim.LibraryPool;
import tickover.sim.SimulatedCapture;
import tickover.sim.SimulatedVisit;
import tickover.sim.SpeedRecord;
import tickover.sim.Workshop;
import tickover.sim.WorkshopCase;
import tickover.store.Visit;
import tickover.store.VisitCapture;

class SimulatedFoldersTest {
    @Test
    void theLibraryPoolsVisitLosesNothingInAFolder(@TempDir Path dir) {
        assertFolderHolds(LibraryPool.lastYear(), dir.resolve("a"));
    }

    @Test
    void everySpeedSourceLosesNothingInAFolder(@TempDir Path dir) {
        for (SpeedRecord.Kind kind : SpeedRecord.Kind.values()) {
            SimulatedVisit visit = Workshop.visit(26, WorkshopCase.any().withSpeed(kind));
            assertFolderHolds(visit, dir.resolve(kind.name()));
        }
    }

    private static void assertFolderHolds(SimulatedVisit visit, Path dir) {
        Visit read = SimulatedFolders.write(visit, dir);
        assertEquals(visit.id(), read.id().toString());
        assertEquals(visit.vehicle(), read.vehicle());
        assertEquals(visit.captures().size(), read.captures().size());
        for (int i = 0; i < read.captures().size(); i++) {
            SimulatedCapture made = visit.captures().get(i);
            VisitCapture kept = read.captures().get(i);
            assertEquals(SimulatedFolders.label(made), kept.label());
            CaptureSignal signal = kept.load();
            assertEquals(made.channels(), signal.channels());
            for (int c = 0; c < made.channels(); c++) {
                // Storing divides by the scale and reading multiplies: a rounding each way.
                double roundOff = 1e-12 * made.recorder().scaleMps2();
                assertArrayEquals(made.accelMps2(c), signal.accelMps2(c), roundOff);
            }
            assertEquals(
                    SimulatedFolders.signal(made, visit.vehicle()).speed().kind(),
                    signal.speed().kind());
        }
    }
}
