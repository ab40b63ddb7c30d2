package tickover.store;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** Good folders to start from, written by hand as a user would. */
final class Folders {
    static final String VEHICLE =
            """
            [vehicle]
            unit = "ML-07"
            description = "Mobile library, 2.2 l diesel van"

            [engine]
            cylinders = 4
            strokes = 4
            idle_rpm = 780
            firing_order = [1, 3, 4, 2]

            [[belts]]
            name = "main"
            length_mm = 1100
            path = ["crank", "idler", "alternator"]

            [[pulleys]]
            name = "crank"
            role = "crank"
            diameter_mm = 165.0

            [[pulleys]]
            name = "idler"
            role = "idler"
            diameter_mm = 70
            face = "flat"
            lines = [{ name = "slots", per_turn = 36 }]

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
            diameter_mm = 55.0
            """;

    static final String VISIT =
            """
            [visit]
            date = 2026-03-04T09:30:00
            odometer_km = 182340
            complaint = "whine that climbs with engine speed"
            id = "0195f0c2-7b3e-7c1a-9d52-5d0e3c8a6f10"

            [[captures]]
            file = "c01.wav"
            scale_mps2 = 50.0
            tach = "c01.tach.csv"
            pulses_per_turn = 1
            tach_pulley = "crank"
            point = "alternator"
            axis = "radial"
            mount = "hand"
            regime = "idle"
            [captures.condition]
            aircon = true
            gear = "drive"
            headlights = false
            steering = false
            belt = "on"
            injector_off = 2

            [[captures]]
            file = "c02.wav"
            obd = "c02.obd.csv"
            point = "idler"
            [[captures.quality]]
            problem = "missing-samples"
            from_s = 0.02
            to_s = 0.03
            text = "80 samples were lost on the line"
            """;

    private Folders() {}

    /** Writes the whole good folder. */
    static Path good(Path dir) {
        try {
            Files.createDirectories(dir);
            Files.writeString(dir.resolve("vehicle.toml"), VEHICLE);
            Files.writeString(dir.resolve("visit.toml"), VISIT);
            Files.writeString(dir.resolve("c01.tach.csv"), "time_s\n0.01\n0.085\n0.16\n");
            Files.writeString(dir.resolve("c02.obd.csv"), "time_s,rpm\n0.05,780\n0.25,781.5\n");
            WavFile.write(dir.resolve("c01.wav"), 8000, sines(1, 800), WavEncoding.PCM_16, 50.0);
            WavFile.write(dir.resolve("c02.wav"), 8000, sines(3, 800), WavEncoding.FLOAT_32, 1.0);
            return dir;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static double[][] sines(int channels, int count) {
        double[][] values = new double[channels][count];
        for (int c = 0; c < channels; c++) {
            for (int i = 0; i < count; i++) {
                values[c][i] = (c + 1) * Math.sin(0.1 * (c + 1) * i);
            }
        }
        return values;
    }

    /** Names of everything below a folder, for telling whether anything was left. */
    static List<String> tree(Path dir) {
        try (var all = Files.walk(dir)) {
            return all.filter(p -> !p.equals(dir))
                    .map(p -> dir.relativize(p).toString())
                    .sorted()
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
