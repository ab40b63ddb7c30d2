package tickover.session;

import java.util.ArrayList;
import java.util.List;
import tickover.align.EdgeRun;
import tickover.align.ProbeStart;
import tickover.align.SampleRun;
import tickover.drive.Vehicle;
import tickover.link.Chunk;
import tickover.session.SourceInfo.Language;
import tickover.session.SourceInfo.Role;
import tickover.store.VisitFolder;
import tickover.unit.DeviceTicks;
import tickover.unit.HostNanos;

/** A probe with a tach at an even 900 rpm, faster than life, for whoever shows a live picture. */
public final class LiveFeed {
    /** Samples per second. */
    public static final int RATE_HZ = 3200;

    /** Crank speed. */
    public static final double RPM = 900;

    private static final long TICK_HZ = 1_000_000;
    private static final double TICKS_PER_SAMPLE = (double) TICK_HZ / RATE_HZ;

    private final LivePipeline to;
    private final double order;
    private int sample;
    private int edge;
    private double toldS;

    /** Describes probe and vehicle to a pipeline; a tone of an order will be felt. */
    public LiveFeed(LivePipeline to, Vehicle vehicle, double order) {
        this.to = to;
        this.order = order;
        SourceInfo info = SourceInfo.of(Role.PROBE, Language.FRAMES, "p", 0, "");
        to.told(new Chunk(Chunk.Kind.SOURCE, 0, at(0), info.json()));
        byte[] note = RecordingNote.vehicle(VisitFolder.vehicleText(vehicle)).json();
        to.told(new Chunk(Chunk.Kind.NOTE, 0, at(0), note));
        to.block(
                new ProbeStart(
                        0, 0, at(0), "p", "", 1, RATE_HZ, TICK_HZ, TICKS_PER_SAMPLE, true, 40, 0));
    }

    private static HostNanos at(double timeS) {
        return new HostNanos(Math.round(timeS * 1e9));
    }

    /** Plays on; edges a tenth of a second at a time, behind their samples. */
    public void play(double lengthS, double rms, boolean edges) {
        int end = sample + (int) Math.round(lengthS * RATE_HZ);
        while (sample < end) {
            int count = Math.min(64, end - sample);
            double[] x = new double[count];
            for (int i = 0; i < count; i++) {
                double turns = RPM / 60 * (sample + i) / RATE_HZ;
                // A little unrest, so that quiet is not flat.
                x[i] =
                        Math.sqrt(2) * rms * Math.cos(2 * Math.PI * order * turns)
                                + 0.001 * ((sample + i) % 7);
            }
            double nowS = (double) (sample + count) / RATE_HZ;
            DeviceTicks tick = new DeviceTicks(Math.round(sample * TICKS_PER_SAMPLE));
            to.block(new SampleRun(0, 0, sample, tick, at(nowS), 1, x, false));
            sample += count;
            if (nowS >= toldS + 0.1) {
                toldS = nowS;
                tell(nowS, edges);
            }
        }
    }

    private void tell(double nowS, boolean edges) {
        List<Long> ticks = new ArrayList<>();
        for (; edge * 60 / RPM < nowS; edge++) {
            ticks.add(Math.round(edge * 60 / RPM * TICK_HZ));
        }
        if (edges) {
            long[] all = ticks.stream().mapToLong(Long::longValue).toArray();
            to.block(new EdgeRun(0, 0, 0, at(nowS), all));
        }
    }
}
