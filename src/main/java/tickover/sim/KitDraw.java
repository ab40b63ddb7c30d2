package tickover.sim;

import java.util.List;

/** Draws what a workshop records with: from a cheap slow probe held by hand to a screwed one. */
final class KitDraw {
    private static final double G_MPS2 = 9.80665;

    private KitDraw() {}

    static Kit draw(Draw draw, WorkshopCase wanted, TrueDrive drive) {
        int[] rates = {25600, 12800, 51200, 48000, 44100, 6400, 3200};
        int rate = rates[draw.pickWeighted(0.45, 0.25, 0.06, 0.05, 0.04, 0.08, 0.07)];
        boolean cheap = rate < 12800 || draw.chance(0.25);
        boolean seismic = !cheap && draw.chance(0.4);
        int channels = cheap && draw.chance(0.5) ? 3 : 1;
        Probe.Hold hold =
                draw.pickWeighted(
                        List.of(
                                Probe.Hold.HAND,
                                Probe.Hold.MAGNET,
                                Probe.Hold.ADHESIVE,
                                Probe.Hold.STUD),
                        0.5,
                        0.33,
                        0.05,
                        seismic ? 0.2 : 0.08);
        double rangeG =
                cheap
                        ? draw.pick(List.of(16.0, 16.0, 8.0, 4.0))
                        : draw.pick(List.of(50.0, 50.0, 30.0, 10.0));
        double noise =
                cheap
                        ? draw.logBetween(0.1, 0.4)
                        : seismic ? draw.logBetween(0.004, 0.02) : draw.logBetween(0.03, 0.1);
        Probe.Spec probe =
                new Probe.Spec(hold, rangeG * G_MPS2, noise, draw.between(1, 2.5), !seismic, true);
        SimulatedCapture.Recorder recorder = recorder(draw, rate, rangeG * G_MPS2, cheap);
        String axis =
                draw.pick(List.of("radial", "radial", "radial", "axial", "vertical", "lateral"));
        SpeedRecord.Kind drawn =
                draw.pickWeighted(
                        List.of(
                                SpeedRecord.Kind.TACH,
                                SpeedRecord.Kind.OBD,
                                SpeedRecord.Kind.KNOWN,
                                SpeedRecord.Kind.NONE),
                        0.28,
                        0.5,
                        0.12,
                        0.1);
        SpeedRecord.Kind speed = wanted.speed().orElse(drawn);
        return new Kit(
                probe,
                recorder,
                channels,
                axis,
                speed,
                tach(draw.branch("tach"), drive),
                obd(draw.branch("obd")),
                draw.pick(List.of(0.01, 0.02, 0.05, 0.1)));
    }

    private static SimulatedCapture.Recorder recorder(
            Draw draw, int rate, double rangeMps2, boolean cheap) {
        SimulatedCapture.SampleFormat format =
                draw.pickWeighted(
                        List.of(
                                SimulatedCapture.SampleFormat.PCM_16,
                                SimulatedCapture.SampleFormat.PCM_24,
                                SimulatedCapture.SampleFormat.FLOAT_32),
                        0.55,
                        cheap ? 0 : 0.12,
                        cheap ? 0.2 : 0.4);
        double unit = draw.pick(List.of(1.0, 1.0, G_MPS2, 10.0));
        boolean floating = format == SimulatedCapture.SampleFormat.FLOAT_32;
        return new SimulatedCapture.Recorder(rate, format, floating ? unit : rangeMps2);
    }

    private static TachSensor tach(Draw draw, TrueDrive drive) {
        String pulley =
                draw.chance(0.85) ? drive.crank().name() : draw.pick(drive.pulleys()).name();
        int marks = draw.pick(List.of(1, 1, 1, 1, 2, 3, 4));
        return new TachSensor(
                pulley,
                marks,
                draw.between(0, 0.004),
                draw.logBetween(2e-6, 8e-5),
                draw.pick(List.of(1e-6, 1e-6, 4e-6, 1 / 25600.0)),
                draw.chance(0.4) ? draw.logBetween(0.001, 0.02) : 0,
                draw.chance(0.3) ? draw.logBetween(0.001, 0.01) : 0);
    }

    private static ObdAdapter obd(Draw draw) {
        return new ObdAdapter(
                draw.between(0.05, 0.3),
                draw.between(0, 0.03),
                draw.logBetween(3, 20),
                draw.between(0.03, 0.25));
    }
}
