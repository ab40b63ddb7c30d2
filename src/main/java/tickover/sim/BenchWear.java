package tickover.sim;

import java.util.List;
import tickover.drive.Role;

/** What a part on the bench does by its wear, and by rolling at all. */
final class BenchWear {
    private BenchWear() {}

    static void add(List<Shaker> shakers, TrueBearing own, FaultKind kind, Trouble how, Draw part) {
        LoadGain even = LoadGain.constant(Role.OTHER);
        switch (kind) {
            case BEARING_OUTER_RING, BEARING_INNER_RING, ROLLING_ELEMENT ->
                    shakers.add(defect(own, kind, how.strength(0.5, 12), part));
            case CAGE -> shakers.add(defect(own, kind, 1.3 * how.strength(0.5, 12), part));
            case BEARING_ROUGH -> {
                double rms = how.strength(0.3, 3);
                shakers.add(
                        rolling(
                                rms,
                                part.between(0.15, 0.6),
                                own,
                                even,
                                new RollingNoise.Crackles(part.between(10, 80), 2 * rms)));
            }
            case ECCENTRIC -> {
                AngleTable table = new AngleTable();
                double amplitude = how.strength(0.8, 6);
                for (int k = 1; k <= 4; k++) {
                    table.add(k, amplitude * Math.pow(0.35, k - 1), part.between(0, 1));
                }
                shakers.add(new Tones(table, 1, even, 1.8));
            }
            case LOOSE ->
                    shakers.add(
                            new Knocks(
                                    how.strength(1, 14),
                                    part.chance(0.7) ? 2 : 3,
                                    part.between(0.1, 0.5),
                                    1,
                                    part.between(0.05, 0.25),
                                    even));
            case BELT_DAMAGE, TICK, UNSPECIFIED, NONE -> {}
        }
    }

    static RollingNoise rolling(
            double rms,
            double turnDepth,
            TrueBearing bearing,
            LoadGain load,
            RollingNoise.Crackles crackles) {
        return new RollingNoise(
                rms, turnDepth, 0.6 * turnDepth, bearing.cageOrder(), crackles, load);
    }

    static BearingDefect defect(TrueBearing bearing, FaultKind kind, double strength, Draw draw) {
        return new BearingDefect(
                bearing,
                kind,
                strength,
                draw.between(0.005, 0.02),
                new LoadZone(draw.between(0.3, 0.5), draw.between(0.1, 0.5)),
                LoadGain.constant(Role.OTHER));
    }
}
