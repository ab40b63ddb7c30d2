package tickover.session;

import java.util.List;
import java.util.Objects;
import tickover.diagnose.LivePartLine;

/**
 * What a live picture is of; the same for as long as the probe runs on.
 *
 * @param stream number of the stretch of the probe's life, another one whenever the picture begins
 *     anew
 * @param axes axes of the probe
 * @param sampleRateHz samples per second, Hz
 * @param traceStepS length of a stretch of the trace, s
 * @param rowsPerS waterfall rows per second
 * @param turnsPerFrame length of a row's frame, crank turns: bins are 1/turnsPerFrame orders wide
 * @param bins values per row
 * @param parts names of the parts that have levels
 * @param lines the lines that are followed
 * @param bandLoHz lower corners of the octave bands, Hz
 */
public record LiveSetup(
        int stream,
        int axes,
        double sampleRateHz,
        double traceStepS,
        int rowsPerS,
        int turnsPerFrame,
        int bins,
        List<String> parts,
        List<LivePartLine> lines,
        List<Double> bandLoHz) {
    public LiveSetup {
        parts = List.copyOf(parts);
        lines = List.copyOf(lines);
        bandLoHz = List.copyOf(bandLoHz);
        if (!(axes >= 1 && sampleRateHz > 0 && traceStepS > 0 && bins >= 0)) {
            throw new IllegalArgumentException(
                    "axes="
                            + axes
                            + ", sampleRateHz="
                            + sampleRateHz
                            + ", traceStepS="
                            + traceStepS
                            + ", bins="
                            + bins
                            + ", need >= 1, > 0 Hz, > 0 s, >= 0");
        }
        Objects.requireNonNull(lines, "lines");
    }

    /**
     * Returns the highest order of a row.
     *
     * @return per crank turn
     */
    public double topOrders() {
        return (bins - 1.0) / turnsPerFrame;
    }
}
