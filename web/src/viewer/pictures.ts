// Pictures for the surfaces: fetched, decoded beside the page, the newest winning.
import { LinearFilter, LinearMipmapLinearFilter, RepeatWrapping, SRGBColorSpace, Texture } from "three";

/** Fetches a picture as a texture. */
export async function texture(address: string, signal: AbortSignal): Promise<Texture> {
  const answer = await fetch(address, { signal });
  if (!answer.ok) throw new Error(`picture: ${answer.status}`);
  const image = await createImageBitmap(await answer.blob(), { imageOrientation: "flipY" });
  const made = new Texture(image);
  made.flipY = false;
  made.colorSpace = SRGBColorSpace;
  made.wrapS = RepeatWrapping;
  made.minFilter = image.width > 700 ? LinearMipmapLinearFilter : LinearFilter;
  made.generateMipmaps = image.width > 700;
  made.anisotropy = image.width > 700 ? 4 : 1;
  made.needsUpdate = true;
  made.addEventListener("dispose", () => image.close());
  return made;
}

/** A question in which only the newest asked counts. */
export class Newest {
  #asked: AbortController | null = null;

  async ask<T>(work: (signal: AbortSignal) => Promise<T>): Promise<T | null> {
    this.#asked?.abort();
    const asked = new AbortController();
    this.#asked = asked;
    try {
      const got = await work(asked.signal);
      return asked.signal.aborted ? null : got;
    } catch (error) {
      if (asked.signal.aborted) return null;
      throw error;
    }
  }

  stop(): void {
    this.#asked?.abort();
  }
}
