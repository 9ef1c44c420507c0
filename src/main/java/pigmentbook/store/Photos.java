package pigmentbook.store;

import com.fasterxml.jackson.databind.node.ArrayNode;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.AffineTransform;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Iterator;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageReadParam;
import javax.imageio.ImageReader;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.ImageInputStream;

/**
 * Photos of pours: kept small, upright, and without what a camera writes beside the picture (where it was taken among
 * it), for the picture is drawn anew.
 */
public final class Photos {

    /** The folder in the book. */
    public static final String FOLDER = "photos";

    /** The most bytes of a photo as it comes. */
    public static final int MOST_BYTES = 20 * 1024 * 1024;

    private static final long MOST_PIXELS = 60_000_000;
    private static final int LONGEST_SIDE = 1600;
    private static final int MOST_OF_ONE_POUR = 40;
    private static final String NO_PHOTO = "This is no photo that can be read; a JPEG or a PNG was expected.";
    private static final float QUALITY = 0.85f;

    private Photos() {}

    /**
     * Keeps a photo with a pour.
     *
     * @param folder the book's folder
     * @param writer saves into the book
     * @param pourId the pour
     * @param bytes a JPEG or PNG as a camera made it
     * @return the photo's name
     * @throws SaveFailedException if it is no such picture, is too large, or can't be written; nothing is changed then
     */
    public static String keep(Path folder, BookWriter writer, String pourId, byte[] bytes) throws SaveFailedException {
        byte[] small = small(bytes);
        writer.read(Kind.POUR, pourId);
        String name = freeName(folder, pourId);
        RecordFiles files = new RecordFiles(folder, new Disk());
        Path file = folder.resolve(FOLDER).resolve(name);
        files.requireNoFileAsFolder(RecordFiles.parent(file));
        files.makeFolder(RecordFiles.parent(file));
        files.put(file, small);
        writer.change(Kind.POUR, pourId, record -> {
            ArrayNode photos = record.get("photos") instanceof ArrayNode there ? there : record.putArray("photos");
            photos.add(name);
            return record;
        });
        return name;
    }

    /** Returns a photo's bytes, or null where the pour has none of that name. */
    public static byte @org.jspecify.annotations.Nullable [] read(Path folder, String name) throws SaveFailedException {
        return isName(name) ? RecordFiles.bytes(folder.resolve(FOLDER).resolve(name)) : null;
    }

    /** Returns whether a text can be a photo's name: no path, nothing hidden. */
    public static boolean isName(String name) {
        return name.matches("[A-Za-z0-9][A-Za-z0-9._-]{0,90}\\.(jpg|jpeg|png)");
    }

    private static String freeName(Path folder, String pourId) throws SaveFailedException {
        for (int number = 1; number <= MOST_OF_ONE_POUR; number++) {
            String name = pourId + "-photo-" + number + ".jpg";
            if (!Files.exists(folder.resolve(FOLDER).resolve(name))) {
                return name;
            }
        }
        throw new SaveFailedException("This pour has " + MOST_OF_ONE_POUR + " photos already; that is the most.");
    }

    /** The points of a photo, upright, at most 1600 on its longer side. */
    public static final class Pixels {

        private final BufferedImage image;

        private Pixels(BufferedImage image) {
            this.image = image;
        }

        /** Returns its width in points. */
        public int width() {
            return image.getWidth();
        }

        /** Returns its height in points. */
        public int height() {
            return image.getHeight();
        }

        /** Returns a square of it, row by row, as 0xRRGGBB. */
        public int[] square(int left, int top, int side) {
            int[] rgb = image.getRGB(left, top, side, side, null, 0, side);
            for (int i = 0; i < rgb.length; i++) {
                rgb[i] &= 0xFFFFFF;
            }
            return rgb;
        }
    }

    /**
     * Reads a photo without keeping it.
     *
     * @throws SaveFailedException if it is no photo, or too large
     */
    public static Pixels pixels(byte[] bytes) throws SaveFailedException {
        return new Pixels(decoded(bytes));
    }

    private static byte[] small(byte[] bytes) throws SaveFailedException {
        try {
            return jpeg(decoded(bytes));
        } catch (IOException e) {
            throw new SaveFailedException(NO_PHOTO, e);
        }
    }

    private static BufferedImage decoded(byte[] bytes) throws SaveFailedException {
        if (bytes.length > MOST_BYTES) {
            throw new SaveFailedException("The photo is larger than 20 MB. Let the camera make a smaller one.");
        }
        try (ImageInputStream in = ImageIO.createImageInputStream(new ByteArrayInputStream(bytes))) {
            Iterator<ImageReader> readers = ImageIO.getImageReaders(in);
            if (!readers.hasNext()) {
                throw new SaveFailedException(NO_PHOTO);
            }
            ImageReader reader = readers.next();
            try {
                reader.setInput(in, true, true);
                return upright(scaled(read(reader)), Exif.orientation(bytes));
            } finally {
                reader.dispose();
            }
        } catch (IOException e) {
            throw new SaveFailedException(NO_PHOTO, e);
        } catch (RuntimeException e) {
            // The decoders of the platform answer to broken pictures with what their arithmetic happens to throw.
            throw new SaveFailedException(NO_PHOTO);
        }
    }

    private static BufferedImage read(ImageReader reader) throws IOException, SaveFailedException {
        int width = reader.getWidth(0);
        int height = reader.getHeight(0);
        if ((long) width * height > MOST_PIXELS) {
            throw new SaveFailedException(
                    "The photo has " + width + " × " + height + " points; at most 60 million can be taken in.");
        }
        ImageReadParam param = reader.getDefaultReadParam();
        int every = Math.max(1, Math.max(width, height) / (2 * LONGEST_SIDE));
        param.setSourceSubsampling(every, every, 0, 0);
        return reader.read(0, param);
    }

    private static BufferedImage scaled(BufferedImage image) {
        double factor = Math.min(1, (double) LONGEST_SIDE / Math.max(image.getWidth(), image.getHeight()));
        int width = Math.max(1, (int) Math.round(image.getWidth() * factor));
        int height = Math.max(1, (int) Math.round(image.getHeight() * factor));
        BufferedImage scaled = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        Graphics2D pen = scaled.createGraphics();
        pen.setRenderingHint(RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BICUBIC);
        pen.drawImage(image, 0, 0, width, height, java.awt.Color.WHITE, null);
        pen.dispose();
        return scaled;
    }

    /** Turns and mirrors the picture as the camera says it was held (Exif 2.3, tag 0x0112: 1 to 8). */
    private static BufferedImage upright(BufferedImage image, int orientation) {
        int w = image.getWidth();
        int h = image.getHeight();
        AffineTransform turn = switch (orientation) {
            case 2 -> new AffineTransform(-1, 0, 0, 1, w, 0);
            case 3 -> new AffineTransform(-1, 0, 0, -1, w, h);
            case 4 -> new AffineTransform(1, 0, 0, -1, 0, h);
            case 5 -> new AffineTransform(0, 1, 1, 0, 0, 0);
            case 6 -> new AffineTransform(0, 1, -1, 0, h, 0);
            case 7 -> new AffineTransform(0, -1, -1, 0, h, w);
            case 8 -> new AffineTransform(0, -1, 1, 0, 0, w);
            default -> null;
        };
        if (turn == null) {
            return image;
        }
        boolean lying = orientation >= 5;
        BufferedImage turned = new BufferedImage(lying ? h : w, lying ? w : h, BufferedImage.TYPE_INT_RGB);
        Graphics2D pen = turned.createGraphics();
        pen.drawImage(image, turn, null);
        pen.dispose();
        return turned;
    }

    private static byte[] jpeg(BufferedImage image) throws IOException {
        ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (var to = ImageIO.createImageOutputStream(out)) {
            ImageWriteParam param = writer.getDefaultWriteParam();
            param.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
            param.setCompressionQuality(QUALITY);
            writer.setOutput(to);
            writer.write(null, new IIOImage(image, null, null), param);
        } finally {
            writer.dispose();
        }
        return out.toByteArray();
    }
}
