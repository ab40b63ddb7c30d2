package tickover.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tickover.align.AlignedBlock;
import tickover.align.SampleRun;
import tickover.link.Chunk;
import tickover.link.ChunkSink;
import tickover.link.RecordingReader;
import tickover.session.SourceInfo.Language;
import tickover.session.SourceInfo.Role;
import tickover.sim.LineTrouble;
import tickover.sim.SimulatedProbe;
import tickover.sim.SimulatedVan;
import tickover.unit.HostNanos;

class ReplayTest {
    private static final double PACE = 20;
    private static final double LENGTH_S = 8;

    @TempDir Path temp;

    private Path recording() {
        SimulatedVan van = new SimulatedVan(false);
        Path file = temp.resolve("air.tkr");
        new VirtualRecording(
                        List.of(
                                new VirtualRecording.Device(
                                        SourceInfo.of(
                                                Role.PROBE, Language.FRAMES, "sim", 500_000, "7"),
                                        new SimulatedProbe(
                                                SimulatedProbe.Spec.ordinary(8000, 40), van),
                                        new LineTrouble(LineTrouble.Spec.NONE, 1))))
                .write(file, LENGTH_S);
        return file;
    }

    private static double[] samples(AlignedBlock block) {
        return block instanceof SampleRun run ? run.accelMps2() : new double[0];
    }

    @Test
    void theSameIsDerivedAtAnyPaceToTheLastBit() throws InterruptedException {
        Path file = recording();
        List<double[]> live = new ArrayList<>();
        StreamPipeline pipeline = new StreamPipeline(b -> live.add(samples(b)));
        RecordingReader.open(file)
                .forEach(
                        new ChunkSink() {
                            @Override
                            public void chunk(Chunk chunk) {
                                pipeline.accept(chunk);
                            }

                            @Override
                            public void damaged(long offset, long bytes, HostNanos lastGood) {}
                        });
        pipeline.end();
        List<double[]> again = Collections.synchronizedList(new ArrayList<>());
        Path soFar = temp.resolve("so-far.tkr");
        long began = System.nanoTime();
        try (Replay replay = Replay.begin(file, soFar, PACE, b -> again.add(samples(b)))) {
            while (!replay.status().finished()) {
                Thread.sleep(10);
            }
            double tookS = (System.nanoTime() - began) / 1e9;
            double shortestS = 0.9 * LENGTH_S / PACE; // the last chunk comes before the end
            assertTrue(tookS >= shortestS, tookS + " s");
            assertEquals("", replay.status().failure());
            assertEquals(RecordingVisit.idOf(file), RecordingVisit.idOf(soFar));
        }
        assertEquals(live.size(), again.size());
        for (int i = 0; i < live.size(); i++) {
            assertTrue(Arrays.equals(live.get(i), again.get(i)), "block " + i);
        }
    }

    @Test
    void endsAtOnceWhenItIsClosed() {
        Replay replay = Replay.begin(recording(), temp.resolve("so-far.tkr"), 0.1, b -> {});
        replay.close();
        assertTrue(replay.status().finished());
        assertTrue(replay.status().elapsedS() < LENGTH_S);
    }
}
