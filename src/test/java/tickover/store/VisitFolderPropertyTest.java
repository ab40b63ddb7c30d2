package tickover.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Whatever stands in the files: they are read, or refused in one sentence, and never worse. */
class VisitFolderPropertyTest {
    private static final long SEED = 20260304;
    private static final int ROUNDS = 500;
    private static final String[] SPLINTERS = {
        "[",
        "]",
        "{",
        "}",
        "\"",
        "'",
        "=",
        "\n",
        ",",
        ".",
        "-",
        "0",
        "nan",
        "inf",
        "1e300",
        "[[",
        "]]",
        "true",
        "\\u0000",
        "\u202e",
        "é",
        "#",
        "\r",
        "1979-05-27",
        "9223372036854775807"
    };

    @TempDir Path temp;

    @Test
    void mangledFoldersAreReadOrRefused() throws IOException {
        Path dir = Folders.good(temp.resolve("visit"));
        List<String> names = Folders.tree(dir);
        Random random = new Random(SEED);
        int refused = 0;
        for (int round = 0; round < ROUNDS; round++) {
            Path file = dir.resolve(names.get(random.nextInt(names.size())));
            byte[] good = Files.readAllBytes(file);
            byte[] bad = mangle(good, random);
            Files.write(file, bad);
            try {
                VisitFolder.read(dir).captures().forEach(VisitCapture::load);
            } catch (VisitFolderException e) {
                refused++;
                assertEquals(1, e.getMessage().lines().count(), e.getMessage());
            } catch (RuntimeException e) {
                fail("seed " + SEED + " round " + round + " " + file.getFileName(), e);
            }
            Files.write(file, good);
        }
        assertTrue(refused > ROUNDS / 4, "only " + refused + " of " + ROUNDS + " were refused");
        assertTrue(refused < ROUNDS, "nothing was read");
    }

    private static byte[] mangle(byte[] good, Random random) {
        int at = random.nextInt(good.length);
        return switch (random.nextInt(4)) {
            case 0 -> Arrays.copyOf(good, at);
            case 1 -> {
                byte[] bad = good.clone();
                // Headers are short: half of the changes go there.
                int from = random.nextBoolean() ? Math.min(at, random.nextInt(64)) : at;
                bad[from] = (byte) random.nextInt(256);
                yield bad;
            }
            case 2 -> {
                byte[] splinter =
                        SPLINTERS[random.nextInt(SPLINTERS.length)].getBytes(
                                StandardCharsets.UTF_8);
                byte[] bad = new byte[good.length + splinter.length];
                System.arraycopy(good, 0, bad, 0, at);
                System.arraycopy(splinter, 0, bad, at, splinter.length);
                System.arraycopy(good, at, bad, at + splinter.length, good.length - at);
                yield bad;
            }
            default -> {
                int to = at + random.nextInt(good.length - at);
                byte[] bad = new byte[good.length - (to - at)];
                System.arraycopy(good, 0, bad, 0, at);
                System.arraycopy(good, to, bad, at, good.length - to);
                yield bad;
            }
        };
    }
}
