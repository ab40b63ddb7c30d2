package tickover.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Objects;

/**
 * Samples that are in a WAV file already, on the disk of the visit folder that they are meant for.
 *
 * @param file the file, which is moved to its place
 * @param scaleMps2 m/s² per full scale of whole numbers, or per unit of floats, &gt; 0
 */
public record WrittenWav(Path file, double scaleMps2) implements DraftSamples {
    public WrittenWav {
        Objects.requireNonNull(file, "file");
        if (!(scaleMps2 > 0 && Double.isFinite(scaleMps2))) {
            throw new IllegalArgumentException("scaleMps2=" + scaleMps2 + ", need > 0 m/s²");
        }
    }

    @Override
    public void putAt(Path wav) throws IOException {
        Files.move(file, wav);
    }
}
