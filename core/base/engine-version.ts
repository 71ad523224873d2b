/** Version of the engine; saved files name the engine that wrote them. */
export const ENGINE_VERSION = '0.1.0';
